using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Statistics;
using BosFlow.TestKit;

namespace BosFlow.Tests.Density;

public sealed class PlaneDensityTests
{
    private const double Sigma = 1e-3;
    private static readonly NodeGrid Grid = DensityScene.PlanarGrid;
    private static readonly double Drop = Math.Abs(DensityScene.Peak) / DensityScene.Coefficient;
    private static readonly FieldStatistics Perfect = KnownDisplacement.Of(Grid, DensityScene.BlobDisplacement, Sigma);

    [Fact]
    public void Convert_GaussianBlob_RecoversItsDensity()
    {
        DensityResult result = Convert(DensityScene.Planar(Perfect));

        ScalarField density = DensityScene.Field(result, "density");
        for (int node = 0; node < Grid.Count; node++)
            Assert.Equal(Truth(node), density.Values[node], 0.003 * Drop);
        Assert.Equal(["density", "refractive_index", "temperature"], result.Fields.Select(field => field.Name));
        Assert.All(result.Flags, flag => Assert.Equal(DensityFlags.None, flag));
        Assert.True(Assert.Single(result.Checks).Passes);
        Assert.Equal(0, density.Sigma[0]);
        Assert.Equal(DensityScene.Blob, (result.Budget!.X, result.Budget.Y));
    }

    [Fact]
    public void SigmaRandom_OverlappingWindows_IsTheScatter()
    {
        const int Draws = 100;
        DensityRequest request = DensityScene.Planar(Perfect) with { ErrorCorrelation = DensityScene.HalfOverlap };
        DensityResult result = Convert(request);
        bool[] isSolid = new bool[Grid.Count];
        int middle = (13 * Grid.Columns) + 15;
        double[] noiseless = Integral(request, isSolid);
        // The integral, px2, that stands for one kg/m3.
        double perDensity = noiseless[middle] / (DensityScene.Field(result, "density").Values[middle] - DensityScene.Ambient);
        var random = new SeededRandom(5);

        double[][] draws = [.. Enumerable.Range(0, Draws).Select(_ => Integral(request with { Mean = DensityScene.Noisy(Perfect, Sigma, random) }, isSolid))];

        foreach (int node in (int[])[middle, (5 * Grid.Columns) + 6, (20 * Grid.Columns) + 3, (13 * Grid.Columns) + 25])
        {
            double scatter = Math.Sqrt(draws.Average(values => Math.Pow((values[node] - noiseless[node]) / perDensity, 2)));
            // The stated sigma comes from 256 draws of its own.
            Assert.Equal(1, scatter / result.SigmaRandom[node], Tolerances.StandardErrors * Math.Sqrt((0.5 / Draws) + (0.5 / 256)));
        }
    }

    [Fact]
    public void Convert_NoUndisturbedPlace_GivesDifferencesOnly()
    {
        DensityRequest request = DensityScene.Planar(Perfect);

        DensityResult result = Convert(request with { Flow = request.Flow with { AmbientEdges = PictureEdge.None } });

        ScalarField difference = Assert.Single(result.Fields);
        Assert.Equal("density_difference", difference.Name);
        // The mean is weighted by the equations of the nodes, of which those at the edges have fewer.
        Assert.Equal(0, difference.Values.Average(), 0.01 * Drop);
        double shift = difference.Values[0] - Truth(0);
        for (int node = 0; node < Grid.Count; node++)
            Assert.Equal(Truth(node) + shift, difference.Values[node], 0.003 * Drop);
        Assert.All(result.Flags, flag => Assert.True(flag.HasFlag(DensityFlags.NotAnchored)));
        Assert.Null(result.Budget);
        Assert.Contains(result.Warnings, warning => warning.StartsWith("The case names no place where the gas is undisturbed", StringComparison.Ordinal));
    }

    [Fact]
    public void Convert_PartCutOffByAMask_IsNotAnchored()
    {
        FieldStatistics cut = KnownDisplacement.Without(Perfect, (x, _) => x is > 85 and < 95, VectorFlags.Masked);
        DensityRequest request = DensityScene.Planar(cut);

        DensityResult result = Convert(request with { Flow = request.Flow with { AmbientEdges = PictureEdge.Left } });

        ScalarField density = DensityScene.Field(result, "density");
        ScalarField temperature = DensityScene.Field(result, "temperature");
        for (int node = 0; node < Grid.Count; node++)
        {
            double x = Grid.X(node % Grid.Columns);
            Assert.Equal(x > 85 && x < 95, result.Flags[node].HasFlag(DensityFlags.NotMeasured));
            Assert.Equal(x > 95, result.Flags[node].HasFlag(DensityFlags.NotAnchored));
            Assert.Equal(x < 85, float.IsFinite(temperature.Values[node]));
            if (x < 80)
                Assert.Equal(Truth(node), density.Values[node], 0.01 * Drop);
        }

        Assert.Contains(result.Warnings, warning => warning.StartsWith("Part of the field is cut off", StringComparison.Ordinal));
    }

    [Fact]
    public void Convert_SolidBodyInside_IsGoneRound()
    {
        static bool Body(double x, double y) => Math.Abs(x - 84) < 9 && Math.Abs(y - 72) < 9;

        DensityResult result = Convert(DensityScene.Planar(KnownDisplacement.Without(Perfect, Body, VectorFlags.Masked)));

        ScalarField density = DensityScene.Field(result, "density");
        for (int node = 0; node < Grid.Count; node++)
        {
            bool isInside = Body(Grid.X(node % Grid.Columns), Grid.Y(node / Grid.Columns));
            Assert.Equal(isInside, float.IsNaN(density.Values[node]));
            // Beside the body the displacement at the place seen through the flow would need the body's.
            bool isBeside = !isInside && Math.Abs(Grid.X(node % Grid.Columns) - 84) < 9 + Grid.Spacing && Math.Abs(Grid.Y(node / Grid.Columns) - 72) < 9 + Grid.Spacing;
            Assert.Equal(isInside ? DensityFlags.NotMeasured : DensityFlags.None, result.Flags[node] & ~(isBeside ? DensityFlags.Bridged : DensityFlags.None));
            if (!isInside)
                Assert.Equal(Truth(node), density.Values[node], (isBeside ? 0.06 : 0.02) * Drop);
        }
    }

    [Fact]
    public void Convert_FailedVectors_AreBridgedAndFlagged()
    {
        static bool Gap(double x, double y) => Math.Abs(x - 84) < 3 && Math.Abs(y - 72) < 3;

        DensityResult result = Convert(DensityScene.Planar(KnownDisplacement.Without(Perfect, Gap, VectorFlags.LowCorrelation)));

        ScalarField density = DensityScene.Field(result, "density");
        int node = (16 * Grid.Columns) + 19;
        Assert.Equal(DensityFlags.Bridged, result.Flags[node]);
        Assert.Equal(Truth(node), density.Values[node], 0.02 * Drop);
    }

    [Fact]
    public void Convert_CurlInTheData_FailsTheCheck()
    {
        static (double U, double V) Turned(double x, double y)
        {
            (double u, double v) = DensityScene.BlobDisplacement(x, y);
            return (u + (2e-4 * (y - 60)), v - (2e-4 * (x - 68)));
        }

        DataCheck check = Assert.Single(Convert(DensityScene.Planar(KnownDisplacement.Of(Grid, Turned, Sigma))).Checks);

        Assert.False(check.Passes);
        Assert.True(check.Value > 2, $"{check.Value}");
    }

    [Fact]
    public void Convert_ErrorsAsStated_LeaveTheResidualAtOne()
    {
        DensityRequest request = DensityScene.Planar(DensityScene.Noisy(Perfect, Sigma, new SeededRandom(12))) with { ErrorCorrelation = DensityScene.HalfOverlap };

        DataCheck check = Assert.Single(Convert(request).Checks);

        Assert.Equal(1, check.Value, 0.1);
    }

    [Fact]
    public void Convert_PathIntegrated_GivesTheIntegralOfTheDifference()
    {
        DensityRequest request = DensityScene.Planar(Perfect);

        DensityResult result = Convert(request with { Flow = request.Flow with { Shape = FlowShape.PathIntegrated }, Rig = request.Rig with { PathLengthMetres = null } });

        ScalarField path = Assert.Single(result.Fields);
        Assert.Equal(("density_path", "kg m-2"), (path.Name, path.Unit));
        for (int node = 0; node < Grid.Count; node++)
            Assert.Equal(0.1 * (Truth(node) - DensityScene.Ambient), path.Values[node], 0.003 * 0.1 * Drop);
        Assert.Null(result.Budget);
    }

    [Fact]
    public void Convert_DensityBelowZero_IsKeptAndFlagged()
    {
        static (double U, double V) Deep(double x, double y) => DensityScene.BlobDisplacement(x, y, -3e-4);

        DensityResult result = Convert(DensityScene.Planar(KnownDisplacement.Of(Grid, Deep, Sigma)));

        int middle = (13 * Grid.Columns) + 15;
        Assert.Equal(DensityScene.Ambient - (3e-4 / DensityScene.Coefficient), DensityScene.Field(result, "density").Values[middle], 0.01);
        Assert.True(DensityScene.Field(result, "density").Values[middle] < 0);
        Assert.Equal(DensityFlags.NotPositive, result.Flags[middle]);
        Assert.True(float.IsNaN(DensityScene.Field(result, "temperature").Values[middle]));
        Assert.True(float.IsNaN(DensityScene.Field(result, "temperature").Sigma[middle]));
        int count = result.Flags.Count(flag => flag == DensityFlags.NotPositive);
        Assert.Contains(result.Warnings, warning => warning.StartsWith($"The density came out as zero or negative at {count} of {Grid.Count} nodes", StringComparison.Ordinal));
    }

    [Fact]
    public void Convert_UndisturbedRegion_SetsItsDensity()
    {
        DensityRequest request = DensityScene.Planar(Perfect);
        var corner = new PixelPolygon([(0, 0), (30, 0), (30, 30), (0, 30)]);

        DensityResult result = Convert(request with { Flow = request.Flow with { AmbientEdges = PictureEdge.None, AmbientRegions = [corner] } });

        ScalarField density = DensityScene.Field(result, "density");
        Assert.Equal(DensityScene.Ambient, density.Values[0], 1e-6);
        Assert.Equal(Truth((13 * Grid.Columns) + 15), density.Values[(13 * Grid.Columns) + 15], 0.005 * Drop);
    }

    [Fact]
    public void Convert_NothingMeasured_SaysSo()
    {
        DensityResult result = Convert(DensityScene.Planar(KnownDisplacement.Without(Perfect, (_, _) => true, VectorFlags.Masked)));

        Assert.Empty(result.Fields);
        Assert.Equal("No displacement was measured anywhere: no density can be given.", Assert.Single(result.Warnings));
    }

    [Fact]
    public void Convert_OneAndTwoThreads_GiveTheSameBytes()
    {
        DensityRequest request = DensityScene.Planar(DensityScene.Noisy(Perfect, 0.01, new SeededRandom(4))) with { ErrorCorrelation = DensityScene.HalfOverlap };

        DensityResult one = Convert(request);
        DensityResult two = Convert(request with { Threads = 2 });

        Assert.Equal(Bits(one), Bits(two));
    }

    private static IEnumerable<int> Bits(DensityResult result) =>
        result.Fields.SelectMany(field => field.Values.Concat(field.Sigma)).Concat(result.SigmaRandom).Concat(result.NormalisedResidual).Select(BitConverter.SingleToInt32Bits);

    private static DensityResult Convert(DensityRequest request) => DensityConverter.Convert(request, CancellationToken.None);

    private static double[] Integral(DensityRequest request, bool[] isSolid) => PlaneIntegration.Values(SightlineField.Of(request.Mean, 0), isSolid, request, CancellationToken.None);

    private static double Truth(int node) => DensityScene.BlobDensity(Grid.X(node % Grid.Columns), Grid.Y(node / Grid.Columns));
}
