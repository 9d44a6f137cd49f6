using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Statistics;

namespace BosFlow.Tests.Density;

/// <summary>Small scenes with a known density, seen from so far away that all lines of sight are parallel: u = -Z_D eps / S holds exactly.</summary>
internal static class DensityScene
{
    /// <summary>Density around, kg/m3.</summary>
    public const double Ambient = 1.2;

    /// <summary>Gladstone-Dale coefficient, m3/kg.</summary>
    public const double Coefficient = 2.2e-4;

    /// <summary>n - n0 in the middle.</summary>
    public const double Peak = -1.2e-4;

    /// <summary>Scale in the flow plane, m/px.</summary>
    public const double FlowScale = 1e-3;

    private const double BackgroundScale = 1.001e-3;
    private const double FlowToBackground = 1;
    private const double Index = 1 + (Coefficient * Ambient);

    /// <summary>The rig: 1 km and 1 m.</summary>
    public static readonly RigGeometry Rig = new()
    {
        LensToFlowMetres = 1000,
        FlowToBackgroundMetres = FlowToBackground,
        BackgroundMetresPerPixel = BackgroundScale,
        PathLengthMetres = 0.1,
    };

    /// <summary>Air of which only coefficient, density and pressure count.</summary>
    public static readonly GasSettings Gas = new() { GladstoneDaleM3PerKg = Coefficient, GladstoneDaleRelativeSigma = 0, AmbientDensityKgM3 = Ambient };

    /// <summary>The nodes of the round scenes: 6 stations, 20 nodes to either side of the axis.</summary>
    public static readonly NodeGrid RoundGrid = new(8, 8, 4, 41, 6);

    /// <summary>Their axis, upward through a column of nodes.</summary>
    public static readonly AxisLine RoundAxis = new(88, 30, 88, 0);

    /// <summary>Radius of the plume at 1 / e, px.</summary>
    public const double RoundWidth = 24;

    /// <summary>Displacement of the plume, px: physics of a Gaussian round plume, eps = -(2 sqrt(pi) delta / n0) (y / a) exp(-y^2 / a^2) away from the axis (derived).</summary>
    public static (double U, double V) Plume(double x, double y)
    {
        double across = (x - RoundAxis.X1) / RoundWidth;
        double eps = -2 * Math.Sqrt(Math.PI) * Peak / Index * across * Math.Exp(-across * across);
        return (-FlowToBackground * eps / BackgroundScale, 0);
    }

    /// <summary>Density of the plume at a distance from its axis, kg/m3.</summary>
    public static double PlumeDensity(double pixels) => Ambient + (Peak / Coefficient * Math.Exp(-pixels * pixels / (RoundWidth * RoundWidth)));

    /// <summary>A request for a round flow.</summary>
    public static DensityRequest Round(FieldStatistics mean) => new()
    {
        Mean = mean,
        Rig = Rig,
        Gas = Gas,
        Flow = new FlowSettings { Shape = FlowShape.Axisymmetric, Axis = RoundAxis },
        Width = 177,
        Height = 37,
    };

    /// <summary>The nodes of the planar scenes.</summary>
    public static readonly NodeGrid PlanarGrid = new(8, 8, 4, 31, 27);

    /// <summary>Middle of the blob, px.</summary>
    public static readonly (double X, double Y) Blob = (68, 60);

    /// <summary>Radius of the blob at 1 / e, px.</summary>
    public const double BlobWidth = 18;

    /// <summary>Displacement of a Gaussian blob that fills the path evenly, px.</summary>
    public static (double U, double V) BlobDisplacement(double x, double y) => BlobDisplacement(x, y, Peak);

    /// <summary>The same for another excess in the middle.</summary>
    public static (double U, double V) BlobDisplacement(double x, double y, double peak)
    {
        (double dx, double dy) = (x - Blob.X, y - Blob.Y);
        double perPixel = -2 / (BlobWidth * BlobWidth) * peak * Math.Exp(-((dx * dx) + (dy * dy)) / (BlobWidth * BlobWidth));
        double factor = -FlowToBackground / BackgroundScale * Rig.PathLengthMetres!.Value / Index / FlowScale * perPixel;
        return (factor * dx, factor * dy);
    }

    /// <summary>Density of the blob, kg/m3.</summary>
    public static double BlobDensity(double x, double y)
    {
        (double dx, double dy) = (x - Blob.X, y - Blob.Y);
        return Ambient + (Peak / Coefficient * Math.Exp(-((dx * dx) + (dy * dy)) / (BlobWidth * BlobWidth)));
    }

    /// <summary>A request for a planar flow, undisturbed at all edges.</summary>
    public static DensityRequest Planar(FieldStatistics mean) => new()
    {
        Mean = mean,
        Rig = Rig,
        Gas = Gas,
        Flow = new FlowSettings { Shape = FlowShape.Planar, AmbientEdges = PictureEdge.Left | PictureEdge.Right | PictureEdge.Top | PictureEdge.Bottom },
        Width = 137,
        Height = 121,
    };

    /// <summary>Correlation of neighbours whose windows of two spacings overlap by half.</summary>
    public static readonly double[] HalfOverlap = [1, 0.5];

    /// <summary>Adds errors of windows that overlap by half: each the mean of 2 x 2 independent cells, so that neighbours share half of them.</summary>
    public static FieldStatistics Noisy(FieldStatistics mean, double sigma, SeededRandom random) =>
        KnownDisplacement.Of(mean.Grid, Noisy(mean.MeanU, mean.Grid, sigma, random), Noisy(mean.MeanV, mean.Grid, sigma, random), sigma);

    private static float[] Noisy(float[] values, NodeGrid grid, double sigma, SeededRandom random)
    {
        int columns = grid.Columns + 1;
        double[] cells = [.. Enumerable.Range(0, columns * (grid.Rows + 1)).Select(_ => random.NextNormal())];
        return
        [
            .. values.Select((value, node) =>
            {
                int first = (node / grid.Columns * columns) + (node % grid.Columns);
                return (float)(value + (sigma / 2 * (cells[first] + cells[first + 1] + cells[first + columns] + cells[first + columns + 1])));
            }),
        ];
    }

    /// <summary>A field of the result.</summary>
    public static ScalarField Field(DensityResult result, string name) => result.Fields.Single(field => field.Name == name);
}
