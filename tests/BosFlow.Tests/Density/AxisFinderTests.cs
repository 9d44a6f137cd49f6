using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Speckle;

namespace BosFlow.Tests.Density;

public sealed class AxisFinderTests
{
    private const double Sigma = 0.02;
    private static readonly NodeGrid Grid = new(15.5, 15.5, 8, 14, 12);

    [Theory]
    [InlineData(90, 3)]
    [InlineData(75, -6)]
    [InlineData(108, 0.7)]
    [InlineData(10, 2)]
    [InlineData(-62, -4)]
    public void Find_SymmetricField_FindsItsAxis(double degrees, double right)
    {
        AxisFrame truth = Axis(degrees, right);
        SightlineField field = SightlineField.Of(KnownDisplacement.Of(Grid, (x, y) => Jet(truth, x, y), Sigma), 0);

        AxisEstimate found = AxisFinder.Find(field, null, 1)!.Value.Estimate;

        Assert.True(found.IsFound);
        Assert.True(Math.Abs(Across(truth, found)) < 0.3 * found.SigmaAcrossPixels, $"{Across(truth, found)} px of ± {found.SigmaAcrossPixels} px");
        Assert.True(Math.Abs(Turned(truth, found)) < 0.3 * found.SigmaDirectionDegrees, $"{Turned(truth, found)} of ± {found.SigmaDirectionDegrees} degrees");
        Assert.InRange(found.AsymmetryShare, 0, 0.06);
    }

    [Fact]
    public void Find_RoughDirectionGiven_FindsTheSameAxis()
    {
        AxisFrame truth = Axis(80, 2);
        SightlineField field = SightlineField.Of(KnownDisplacement.Of(Grid, (x, y) => Jet(truth, x, y), Sigma), 0);

        AxisEstimate fromField = AxisFinder.Find(field, null, 1)!.Value.Estimate;
        AxisEstimate fromHint = AxisFinder.Find(field, 100, 1)!.Value.Estimate;

        Assert.Equal(fromField.DirectionDegrees, fromHint.DirectionDegrees, 0.01);
        Assert.Equal(Across(truth, fromField), Across(truth, fromHint), 0.01);
    }

    // Independent errors, and errors of windows that overlap by half: 2 x 2 nodes share each.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Find_NoisyField_ErrsAsMuchAsItSays(bool overlap)
    {
        const int Draws = 32;
        AxisFrame truth = Axis(84, 2.3);
        var random = new SeededRandom(1905);
        var perfect = KnownDisplacement.Of(Grid, (x, y) => Jet(truth, x, y), Sigma);
        var across = new List<double>();
        var turned = new List<double>();
        for (int draw = 0; draw < Draws; draw++)
        {
            var noisy = overlap
                ? DensityScene.Noisy(perfect, Sigma, random)
                : KnownDisplacement.Of(Grid, [.. perfect.MeanU.Select(u => (float)(u + (Sigma * random.NextNormal())))], [.. perfect.MeanV.Select(v => (float)(v + (Sigma * random.NextNormal())))], Sigma);
            AxisEstimate found = AxisFinder.Find(SightlineField.Of(noisy, 0), 90, overlap ? 4 : 1)!.Value.Estimate;
            across.Add(Across(truth, found) / found.SigmaAcrossPixels);
            turned.Add(Turned(truth, found) / found.SigmaDirectionDegrees);
        }

        // The RMS of 32 draws is itself uncertain by 12.5 %.
        Assert.True(Rms(across) is > 0.65 and < 1.35, $"across {Rms(across)}, direction {Rms(turned)}");
        Assert.True(Rms(turned) is > 0.65 and < 1.35, $"across {Rms(across)}, direction {Rms(turned)}");
    }

    [Fact]
    public void Find_Vortex_HasNoAxis()
    {
        // A vortex mirrored at any line through it turns the other way.
        static (double U, double V) Vortex(double x, double y)
        {
            (double dx, double dy) = (x - 66, y - 60);
            double share = 0.02 * Math.Exp(-((dx * dx) + (dy * dy)) / 800);
            return (-share * dy, share * dx);
        }

        Assert.Null(AxisFinder.Find(SightlineField.Of(KnownDisplacement.Of(Grid, Vortex, Sigma), 0), null, 1));
    }

    [Fact]
    public void Find_NoDisplacement_HasNoAxis() => Assert.Null(AxisFinder.Find(SightlineField.Of(KnownDisplacement.Of(Grid, (_, _) => (0, 0), Sigma), 0), null, 1));

    private static AxisFrame Axis(double degrees, double right) => AxisFrame.At(67.5, 59.5, degrees).MovedRight(right);

    private static double Across(AxisFrame truth, AxisEstimate found) => truth.Split(found.X, found.Y).Right;

    private static double Turned(AxisFrame truth, AxisEstimate found) => Math.IEEERemainder(found.DirectionDegrees - truth.DirectionDegrees, 180);

    private static double Rms(List<double> values) => Math.Sqrt(values.Average(value => value * value));

    /// <summary>Gradient of a ridge that widens along the axis, px: mirror-symmetric, with a part along the axis.</summary>
    private static (double U, double V) Jet(AxisFrame axis, double x, double y)
    {
        (double along, double right) = axis.Split(x, y);
        double width = 20 + (0.15 * along);
        double t = right / width;
        double ridge = Math.Exp(-t * t);
        // Of 6 px2 exp(-(right / width)^2) along and across.
        double byAlong = 6 * ridge * 2 * t * t / width * 0.15;
        double byRight = 6 * ridge * -2 * t / width;
        return ((byAlong * axis.AlongX) + (byRight * axis.RightX), (byAlong * axis.AlongY) + (byRight * axis.RightY));
    }
}
