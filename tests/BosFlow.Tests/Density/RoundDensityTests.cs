using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Statistics;

namespace BosFlow.Tests.Density;

public sealed class RoundDensityTests
{
    private const double Sigma = 1e-3;
    private static readonly double Drop = Math.Abs(DensityScene.Peak) / DensityScene.Coefficient;
    private static readonly FieldStatistics Perfect = KnownDisplacement.Of(DensityScene.RoundGrid, DensityScene.Plume, Sigma);

    // Known errors of the operators for a Gaussian at 12 radii per width (second order for the two-point and three-point ones, physics of the operators' own tests), and room for the
    // smoothing, which flattens the crest by about the noise.
    [Theory]
    [InlineData(AbelMethod.CubicSpline, 3e-3)]
    [InlineData(AbelMethod.TwoPoint, 4e-3)]
    [InlineData(AbelMethod.ThreePoint, 8e-3)]
    [InlineData(AbelMethod.Smoothed, 8e-3)]
    public void Convert_GaussianPlume_RecoversItsDensity(AbelMethod method, double shareOfPeak)
    {
        DensityRequest request = DensityScene.Round(Perfect);

        DensityResult result = Convert(request with { Flow = request.Flow with { Inversion = method } });

        Assert.True(Worst(result) < shareOfPeak * Drop, $"{Worst(result) / Drop} of the peak");
        Assert.All(result.Flags, flag => Assert.Equal(DensityFlags.None, flag));
        Assert.All(result.Checks, check => Assert.True(check.Passes, check.Name));
        Assert.DoesNotContain(result.Warnings, warning => warning.Contains("edge", StringComparison.Ordinal) || warning.Contains("sides", StringComparison.Ordinal));
    }

    [Fact]
    public void Convert_GaussianPlume_FieldsAndProfilesAgree()
    {
        DensityResult result = Convert(DensityScene.Round(Perfect));

        ScalarField density = DensityScene.Field(result, "density");
        ScalarField temperature = DensityScene.Field(result, "temperature");
        ScalarField index = DensityScene.Field(result, "refractive_index");
        int node = (2 * DensityScene.RoundGrid.Columns) + 20;
        double rho = density.Values[node];
        // T = p M / (R rho) with the molar mass of dry air, 28.965 g/mol (standard atmosphere, ISO 2533: 28.9644, from memory).
        Assert.Equal(101325 * 0.028965 / (8.314462618 * rho), temperature.Values[node], 0.1);
        Assert.Equal(1 + (DensityScene.Coefficient * rho), index.Values[node], 1e-6);
        Assert.Equal(temperature.Values[node] * density.Sigma[node] / rho, temperature.Sigma[node], 1e-3 * temperature.Sigma[node]);
        Assert.Equal(DensityScene.RoundGrid.Rows, result.Profiles.Count);
        // The axis runs upward: station 0 is the lowest row.
        RadialProfile profile = result.Profiles[DensityScene.RoundGrid.Rows - 1 - 2];
        Assert.Equal(rho, profile.Density[0], 1e-6);
        Assert.Equal(density.Values[node + 5], profile.Density[10], 1e-6);
        Assert.Equal(5 * 4 * DensityScene.FlowScale, profile.RadiusMetres[10], 1e-9);
        Assert.Equal(3 * 4 * DensityScene.FlowScale, profile.AxialMetres, 1e-9);
        Assert.Equal(profile.DensityLeft[10], profile.DensityRight[10], 1e-5);
        Assert.False(result.Axis!.IsFound);
        Assert.True(double.IsNaN(result.Axis.SigmaAcrossPixels));
    }

    [Fact]
    public void Convert_NoAxisGiven_FindsItAndCountsItsUncertainty()
    {
        DensityRequest request = DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid, DensityScene.Plume, 5e-3));

        DensityResult result = Convert(request with { Flow = request.Flow with { Axis = null } });

        Assert.True(result.Axis!.IsFound);
        Assert.Equal(0, Math.IEEERemainder(result.Axis.DirectionDegrees - 90, 180), 0.1);
        Assert.Equal(88, result.Axis.X, 0.05);
        Assert.True(Worst(result) < 3e-3 * Drop, $"{Worst(result) / Drop} of the peak");
        // On the axis itself a move changes little; on the flanks d rho / dr times the move.
        double steepest = Drop * Math.Sqrt(2) * Math.Exp(-0.5) / DensityScene.RoundWidth;
        int flank = (3 * DensityScene.RoundGrid.Columns) + 20 + 4;
        ScalarField density = DensityScene.Field(result, "density");
        double fromAxis = Math.Sqrt((density.Sigma[flank] * density.Sigma[flank]) - (result.SigmaRandom[flank] * result.SigmaRandom[flank]));
        Assert.InRange(fromAxis, 0.8 * steepest * result.Axis.SigmaAcrossPixels, 2.5 * steepest * result.Axis.SigmaAcrossPixels);
        Assert.Contains(result.Budget!.Lines, line => line.Source == "position of the axis" && line.IsStated);
    }

    [Fact]
    public void Convert_NoSymmetry_GivesNoFieldAndSaysSo()
    {
        static (double U, double V) Vortex(double x, double y) => (-0.01 * (y - 18) * Math.Exp(-Math.Pow(x - 88, 2) / 300), 0.01 * (x - 88) * Math.Exp(-Math.Pow(x - 88, 2) / 300));
        DensityRequest request = DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid, Vortex, Sigma));

        DensityResult result = Convert(request with { Flow = request.Flow with { Axis = null } });

        Assert.Empty(result.Fields);
        Assert.Empty(result.Profiles);
        Assert.Null(result.Budget);
        Assert.StartsWith("No axis of symmetry was found", Assert.Single(result.Warnings), StringComparison.Ordinal);
        Assert.All(result.Flags, flag => Assert.Equal(DensityFlags.NotMeasured, flag));
    }

    [Theory]
    [InlineData(true, "Too little displacement was measured about the axis")]
    [InlineData(false, "No axis of symmetry was found")]
    public void Convert_NothingMeasured_GivesNoFieldAndSaysSo(bool isAxisGiven, string start)
    {
        DensityRequest request = DensityScene.Round(KnownDisplacement.Without(Perfect, (_, _) => true, VectorFlags.LowCorrelation));

        DensityResult result = Convert(isAxisGiven ? request : request with { Flow = request.Flow with { Axis = null } });

        Assert.Empty(result.Fields);
        Assert.StartsWith(start, Assert.Single(result.Warnings), StringComparison.Ordinal);
    }

    [Fact]
    public void Convert_MaskedCore_IsBridgedAndFlagged()
    {
        DensityResult result = Convert(DensityScene.Round(KnownDisplacement.Without(Perfect, (x, _) => Math.Abs(x - 88) < 6, VectorFlags.Masked)));

        // Nodes 84, 88 and 92 are missing, and all between 80 and 96 with them; radii are 2 px apart.
        foreach (RadialProfile profile in result.Profiles)
        {
            for (int i = 0; i < profile.Density.Length; i++)
                Assert.Equal(i is > 0 and < 4 || i == 0, profile.Flags[i].HasFlag(DensityFlags.Bridged));
            Assert.Equal(DensityScene.PlumeDensity(20), profile.Density[10], 0.005 * Drop);
        }

        Assert.True(result.Flags[(2 * DensityScene.RoundGrid.Columns) + 20].HasFlag(DensityFlags.Bridged));
    }

    [Fact]
    public void Convert_OneSideStronger_FlagsTheContradiction()
    {
        static (double U, double V) Lopsided(double x, double y) => (DensityScene.Plume(x, y).U * (x > 88 ? 1.9 : 1), 0);

        DensityResult result = Convert(DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid, Lopsided, Sigma)));

        int flank = (2 * DensityScene.RoundGrid.Columns) + 23;
        Assert.True(result.Flags[flank].HasFlag(DensityFlags.Asymmetric));
        Assert.False(result.Flags[2 * DensityScene.RoundGrid.Columns].HasFlag(DensityFlags.Asymmetric));
        Assert.Equal([false, false, true], result.Checks.Select(check => check.Passes));
        Assert.Contains(result.Warnings, warning => warning.StartsWith("The two sides of the axis differ by", StringComparison.Ordinal));
    }

    [Fact]
    public void Convert_PlumeWiderThanThePicture_Warns()
    {
        var grid = new NodeGrid(64, 8, 4, 13, 6);

        DensityResult result = Convert(DensityScene.Round(KnownDisplacement.Of(grid, DensityScene.Plume, Sigma)));

        Assert.Contains(result.Warnings, warning => warning.StartsWith("At 6 of 6 stations the flow reaches the edge of the measured field", StringComparison.Ordinal));
    }

    [Fact]
    public void Convert_OneAndTwoThreads_GiveTheSameBytes()
    {
        DensityRequest request = DensityScene.Round(DensityScene.Noisy(Perfect, 0.01, new SeededRandom(4)));
        request = request with { ErrorCorrelation = DensityScene.HalfOverlap, Flow = request.Flow with { Axis = null } };

        DensityResult one = Convert(request);
        DensityResult two = Convert(request with { Threads = 2 });

        Assert.Equal(one.Fields.SelectMany(field => field.Values.Concat(field.Sigma)).Select(BitConverter.SingleToInt32Bits), two.Fields.SelectMany(field => field.Values.Concat(field.Sigma)).Select(BitConverter.SingleToInt32Bits));
        Assert.Equal(one.Profiles.SelectMany(profile => profile.SigmaDensity), two.Profiles.SelectMany(profile => profile.SigmaDensity));
        Assert.Equal(one.Flags, two.Flags);
    }

    [Fact]
    public void Convert_Cancelled_Stops()
    {
        Assert.ThrowsAny<OperationCanceledException>(() => DensityConverter.Convert(DensityScene.Round(Perfect), new CancellationToken(canceled: true)));
    }

    private static DensityResult Convert(DensityRequest request) => DensityConverter.Convert(request, CancellationToken.None);

    private static double Worst(DensityResult result)
    {
        ScalarField density = DensityScene.Field(result, "density");
        return Enumerable.Range(0, density.Grid.Count).Max(node => Math.Abs(density.Values[node] - DensityScene.PlumeDensity(density.Grid.X(node % density.Grid.Columns) - 88)));
    }
}
