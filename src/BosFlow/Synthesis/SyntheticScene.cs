using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>A scene made from its recipe: renders any frame, and knows its exact truth. Safe to use from several threads.</summary>
public sealed class SyntheticScene
{
    private const long ShakeStream = -1;
    private readonly IReadOnlyList<Dot> pattern;
    private readonly Dot[] displaced;
    private readonly IFlowField field;
    private readonly CameraShake? shake;
    private readonly SceneGas? gas;
    private readonly IIndexField? medium;

    /// <summary>Draws the pattern and displaces it.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="cancellationToken">Stops the ray tracing.</param>
    /// <exception cref="ConfigurationException">The recipe cannot be met; one sentence for each problem.</exception>
    public SyntheticScene(SceneRecipe recipe, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        IReadOnlyList<string> problems = recipe.Problems();
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
        Recipe = recipe;
        Scale = recipe.Rig is null ? null : OpticalScaling.From(recipe.Rig, recipe.Gas);
        View = recipe.Rig is null ? null : ViewGeometry.Of(recipe.Rig, Scale!, recipe.Width, recipe.Height);
        gas = recipe.Rig is null ? null : SceneGas.Of(recipe.Gas);
        field = recipe.Flow.Build(View, gas);
        medium = View is null ? null : recipe.Flow.Medium(View, gas!);
        shake = recipe.Shake is null ? null : new CameraShake(recipe.Shake, recipe.Width, recipe.Height, SeededRandom.PartSeed(recipe.Seed, ShakeStream, 0));
        pattern = recipe.Printed ?? SpecklePattern.Draw(recipe.Width, recipe.Height, recipe.Speckle);
        displaced = SceneRenderer.Displace(pattern, field, cancellationToken);
        RequireMargin();
    }

    /// <summary>The recipe.</summary>
    public SceneRecipe Recipe { get; }

    /// <summary>Factors from px to optical quantities; null where the scene has no rig.</summary>
    public OpticalScale? Scale { get; }

    /// <summary>The camera; null where the scene has no rig.</summary>
    public ViewGeometry? View { get; }

    /// <summary>Time of a frame since the first, s.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public double TimeSeconds(int frame) => frame / Recipe.FrameRateHz;

    /// <summary>Whether the flow is on in a frame.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public bool HasFlow(int frame) => frame >= Recipe.FlowOffCount;

    /// <summary>Where a point of the first frame's view is seen in a frame when only the camera moved.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public PlanarMotion MotionAt(int frame) => shake?.At(TimeSeconds(frame)) ?? PlanarMotion.Identity;

    /// <summary>Renders one frame.</summary>
    /// <param name="frame">Number of the frame, 0 to FrameCount - 1.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>The picture in digital numbers.</returns>
    public GrayImage Render(int frame, CancellationToken cancellationToken) => Render(frame, MotionAt(frame), cancellationToken);

    /// <summary>Renders one frame as a camera sees it that moved otherwise than the recipe says.</summary>
    /// <param name="frame">Number of the frame, 0 to FrameCount - 1.</param>
    /// <param name="motion">Where the moved camera sees a point of the view at rest; no larger than the margin of the pattern.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>The picture in digital numbers.</returns>
    public GrayImage Render(int frame, PlanarMotion motion, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frame);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(frame, Recipe.FrameCount);
        Dot[] dots = HasFlow(frame) ? displaced : [.. pattern];
        return SceneRenderer.Render(
            dots, motion, Recipe.Width, Recipe.Height, Recipe.Speckle, Recipe.Sensor, Recipe.Seed, frame, cancellationToken);
    }

    /// <summary>The exact field of the flow at the nodes of a grid.</summary>
    /// <param name="grid">Where, px of the first frame.</param>
    /// <param name="cancellationToken">Stops between two rows of nodes.</param>
    public SceneTruth TruthAt(NodeGrid grid, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(grid);
        float[] u = new float[grid.Count];
        float[] v = new float[grid.Count];
        float[]? pathX = Scale is null ? null : new float[grid.Count];
        float[]? pathY = Scale is null ? null : new float[grid.Count];
        double source = Recipe.Flow.SourceTemperatureKelvin ?? Recipe.Gas.AmbientTemperatureKelvin;
        float[]? density = medium is null ? null : new float[grid.Count];
        float[]? temperature = medium is not null && Recipe.Flow.IsAtAmbientPressure ? new float[grid.Count] : null;
        Parallel.For(0, grid.Rows, new ParallelOptions { CancellationToken = cancellationToken }, row =>
        {
            for (int column = 0; column < grid.Columns; column++)
            {
                int node = (row * grid.Columns) + column;
                FlowSample sample = field.At(grid.X(column), grid.Y(row));
                u[node] = (float)sample.U;
                v[node] = (float)sample.V;
                if (Scale is null)
                    continue;
                pathX![node] = (float)DensityPath(sample.IndexGradientPathX, sample.U);
                pathY![node] = (float)DensityPath(sample.IndexGradientPathY, sample.V);
                if (medium is null)
                    continue;
                double excess = IndexExcessInFlowPlane(grid.X(column), grid.Y(row));
                density![node] = (float)gas!.DensityAt(excess, source);
                if (temperature is not null)
                    temperature[node] = (float)gas.TemperatureAt(excess, source);
            }
        });
        return new SceneTruth
        {
            Grid = grid,
            U = u,
            V = v,
            DensityGradientPathX = pathX,
            DensityGradientPathY = pathY,
            DensityKgM3 = density,
            TemperatureKelvin = temperature,
        };
    }

    private double IndexExcessInFlowPlane(double x, double y)
    {
        (double flowX, double flowY) = View!.OnFlowPlane(x, y);
        return medium!.At(flowX, flowY, View.LensToFlowMetres).Excess;
    }

    private double DensityPath(double indexPath, double displacement) =>
        double.IsNaN(indexPath) ? Scale!.DensityGradientPathPerPixel * displacement : indexPath / Scale!.GladstoneDaleM3PerKg;

    /// <summary>Dots must come from beyond every edge, or the edges of some frame would be bare.</summary>
    private void RequireMargin()
    {
        double largest = 0;
        double right = Recipe.Width - 1;
        double bottom = Recipe.Height - 1;
        for (int frame = 0; frame < Recipe.FrameCount; frame++)
        {
            PlanarMotion motion = MotionAt(frame);
            foreach ((double x, double y) in ((double, double)[])[(0, 0), (right, 0), (0, bottom), (right, bottom)])
            {
                (double u, double v) = motion.DisplacementAt(x, y);
                largest = Math.Max(largest, Math.Max(Math.Abs(u), Math.Abs(v)));
            }
        }

        double flow = 0;
        for (int i = 0; i < displaced.Length; i++)
            flow = Math.Max(flow, Math.Max(Math.Abs(displaced[i].X - pattern[i].X), Math.Abs(displaced[i].Y - pattern[i].Y)));
        double needed = Math.Ceiling(largest + flow + (3 * Recipe.Speckle.ImagePixels / 2));
        if (needed > Recipe.Speckle.MarginPixels)
            throw new ConfigurationException([FormattableString.Invariant($"Motion and flow bring dots from up to {needed} px outside the picture into view; make the margin of {Recipe.Speckle.MarginPixels} px at least as large.")]);
    }
}
