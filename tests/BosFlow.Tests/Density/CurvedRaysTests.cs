using BosFlow.Density;

namespace BosFlow.Tests.Density;

public sealed class CurvedRaysTests
{
    private const int Count = 64;
    private const double Step = 1e-3;
    private const double Width = 14 * Step;
    private const double Ambient = 1.0003;
    private static readonly SlopeInversion Inverse = new SlopeInversions(AbelMethod.CubicSpline).For(new double[Count], []);

    [Theory]
    [InlineData(-0.015)]
    [InlineData(0.015)]
    public void Invert_StrongField_RecoversWhatStraightRaysMiss(double peak)
    {
        double[] slope = Slopes(peak);

        (double[] excess, _, double share) = CurvedRays.Invert(slope, Inverse, Step, Ambient);

        Assert.True(WorstShare(excess, peak) < 0.001, $"corrected: {WorstShare(excess, peak)}");
        Assert.True(WorstShare(Inverse.Apply(slope), peak) > 0.005, $"straight: {WorstShare(Inverse.Apply(slope), peak)}");
        Assert.True(share > 0.005, $"share {share}");
    }

    [Fact]
    public void Invert_TenTimesWeakerField_NeedsATenthOfTheCorrection()
    {
        double strong = CurvedRays.Invert(Slopes(-3e-3), Inverse, Step, Ambient).Share;
        double weak = CurvedRays.Invert(Slopes(-3e-4), Inverse, Step, Ambient).Share;

        Assert.Equal(10, strong / weak, 1.0);
    }

    [Fact]
    public void Invert_NoDisplacement_GivesNothing()
    {
        (double[] excess, _, double share) = CurvedRays.Invert(new double[Count], Inverse, Step, Ambient);

        Assert.All(excess, value => Assert.Equal(0, value));
        Assert.Equal(0, share);
    }

    private static double[] Slopes(double peak) =>
        [.. Enumerable.Range(0, Count).Select(i => Ambient * Bouguer.Turn(i * Step, Ambient, r => (Value(peak, r), -2 * r / (Width * Width) * Value(peak, r)), 8 * Width))];

    private static double Value(double peak, double r) => peak * Math.Exp(-r * r / (Width * Width));

    private static double WorstShare(double[] excess, double peak) => Enumerable.Range(0, Count).Max(i => Math.Abs(excess[i] - Value(peak, i * Step))) / Math.Abs(peak);
}
