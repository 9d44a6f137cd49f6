using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>A scene made from its recipe: renders any frame, and knows its exact truth. Safe to use from several threads.</summary>
public sealed class SyntheticScene
{
    private readonly IReadOnlyList<Dot> pattern;
    private readonly Dot[] displaced;
    private readonly IFlowField field;
    private readonly SceneCamera camera;
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
        camera = new SceneCamera(recipe);
        pattern = recipe.Printed ?? SpecklePattern.Draw(recipe.Width, recipe.Height, recipe.Speckle);
        displaced = SceneRenderer.Displace(pattern, field, cancellationToken);
        double flow = displaced.Select((dot, i) => Math.Max(Math.Abs(dot.X - pattern[i].X), Math.Abs(dot.Y - pattern[i].Y))).DefaultIfEmpty(0).Max();
        SceneLimits.Require(recipe, camera, flow + (recipe.Drift?.Largest(camera.CentreX, camera.CentreY) ?? 0));
    }

    /// <summary>The recipe.</summary>
    public SceneRecipe Recipe { get; }

    /// <summary>Factors from px to optical quantities; null where the scene has no rig.</summary>
    public OpticalScale? Scale { get; }

    /// <summary>The camera; null where the scene has no rig.</summary>
    public ViewGeometry? View { get; }

    /// <summary>Time of a frame since the first, s, as its time stamp tells it.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public double TimeSeconds(int frame) => camera.StampSeconds(frame);

    /// <summary>Whether the flow is on in a frame.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public bool HasFlow(int frame) => camera.Shown(frame) >= Recipe.FlowOffCount && camera.Shown(frame) < Recipe.FrameCount - Recipe.FlowOffAfterCount;

    /// <summary>Middle of the exposure of what a frame shows in a row, s since the first row of the first frame.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    /// <param name="row">The row, px; also between two rows.</param>
    public double ExposedAtSeconds(int frame, double row) => camera.ViewOf(frame).SecondsAt(row);

    /// <summary>How the view lies in a row of a frame, in the middle of its exposure, against the view at rest.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    /// <param name="row">The row, px; also between two rows.</param>
    public CameraPose PoseAt(int frame, double row) => camera.ViewOf(frame).PoseAt(row);

    /// <summary>Where a point of the view at rest is seen in a frame when only the camera moved; with a readout, by its middle row.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public PlanarMotion MotionAt(int frame) => PoseAt(frame, camera.CentreY).ToMotion(camera.CentreX, camera.CentreY);

    /// <summary>Renders one frame.</summary>
    /// <param name="frame">Number of the frame, 0 to FrameCount - 1.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>The picture in digital numbers.</returns>
    public GrayImage Render(int frame, CancellationToken cancellationToken) =>
        camera.IsPlain ? Render(frame, MotionAt(frame), cancellationToken) : camera.Render(frame, DotsOf(frame), cancellationToken);

    /// <summary>Renders one frame as a camera sees it that moved otherwise than the recipe says.</summary>
    /// <param name="frame">Number of the frame, 0 to FrameCount - 1.</param>
    /// <param name="motion">Where the moved camera sees a point of the view at rest; no larger than the margin of the pattern.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>The picture in digital numbers.</returns>
    public GrayImage Render(int frame, IPictureMotion motion, CancellationToken cancellationToken) => SceneRenderer.Render(
        DotsOf(frame), motion, Recipe.Width, Recipe.Height, Recipe.Speckle, Recipe.Sensor, Recipe.Seed, camera.Shown(frame), cancellationToken);

    /// <summary>The exact field of the flow at the nodes of a grid, as a camera sees it that stays as it was when the first frame's row through the node was read.</summary>
    /// <param name="grid">Where, px of the first frame; of its ideal picture where the scene has a lens, as is the truth.</param>
    /// <param name="cancellationToken">Stops between two rows of nodes.</param>
    public SceneTruth TruthAt(NodeGrid grid, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(grid);
        float[] u = new float[grid.Count];
        float[] v = new float[grid.Count];
        float[]? pathX = Scale is null ? null : new float[grid.Count];
        float[]? pathY = Scale is null ? null : new float[grid.Count];
        FrameView first = camera.ViewOf(0);
        double source = Recipe.Flow.SourceTemperatureKelvin ?? Recipe.Gas.AmbientTemperatureKelvin;
        float[]? density = medium is null ? null : new float[grid.Count];
        float[]? temperature = medium is not null && Recipe.Flow.IsAtAmbientPressure ? new float[grid.Count] : null;
        Parallel.For(0, grid.Rows, new ParallelOptions { CancellationToken = cancellationToken }, row =>
        {
            for (int column = 0; column < grid.Columns; column++)
            {
                int node = (row * grid.Columns) + column;
                (double x, double y) = first.IdealToRest(grid.X(column), grid.Y(row));
                FlowSample sample = field.At(x, y);
                CameraPose pose = first.PoseOfIdeal(grid.X(column), grid.Y(row));
                (u[node], v[node]) = Single(pose.Turn(sample.U, sample.V));
                if (Scale is null)
                    continue;
                (pathX![node], pathY![node]) = Single((pose with { Scale = 1 }).Turn(DensityPath(sample.IndexGradientPathX, sample.U), DensityPath(sample.IndexGradientPathY, sample.V)));
                if (medium is null)
                    continue;
                double excess = IndexExcessInFlowPlane(x, y);
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

    private Dot[] DotsOf(int frame)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frame);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(frame, Recipe.FrameCount);
        IReadOnlyList<Dot> dots = HasFlow(frame) ? displaced : pattern;
        if (Recipe.Drift is not { } drift)
            return [.. dots];
        double share = camera.Shown(frame) / Math.Max(1.0, Recipe.FrameCount - 1);
        return [.. dots.Select(dot => drift.Move(dot, camera.CentreX, camera.CentreY, share))];
    }

    private static (float U, float V) Single((double U, double V) vector) => ((float)vector.U, (float)vector.V);

    private double IndexExcessInFlowPlane(double x, double y)
    {
        (double flowX, double flowY) = View!.OnFlowPlane(x, y);
        return medium!.At(flowX, flowY, View.LensToFlowMetres).Excess;
    }

    private double DensityPath(double indexPath, double displacement) =>
        double.IsNaN(indexPath) ? Scale!.DensityGradientPathPerPixel * displacement : indexPath / Scale!.GladstoneDaleM3PerKg;
}
