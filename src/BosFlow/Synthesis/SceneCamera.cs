using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>The camera of a scene with all it does wrong: motion, rows, exposure, light, stabilisation, lost and repeated frames. Safe to use from several threads.</summary>
internal sealed class SceneCamera
{
    private readonly SceneRecipe recipe;
    private readonly CameraMotion motion;
    private readonly FrameOrder order;
    private readonly (double X, double Y)[]? cuts;
    private readonly LensModel? lens;

    public SceneCamera(SceneRecipe recipe)
    {
        this.recipe = recipe;
        motion = new CameraMotion(recipe);
        lens = recipe.Lens is null ? null : new LensModel(recipe.Lens);
        order = recipe.Order ?? new FrameOrder();
        if (recipe.Stabilisation is not StabilisationSettings settings)
            return;
        CameraPose[] course = [.. Enumerable.Range(0, recipe.FrameCount).Select(frame => SensorViewOf(frame).PoseAt(motion.CentreY))];
        cuts = [.. Enumerable.Range(0, recipe.FrameCount).Select(frame => Stabilisation.ShiftOf(settings, frame, recipe.FrameCount, other => course[other]))];
    }

    /// <summary>Column of the picture's centre, px.</summary>
    public double CentreX => motion.CentreX;

    /// <summary>Row of the picture's centre, px.</summary>
    public double CentreY => motion.CentreY;

    /// <summary>Rows and columns that the sensor has beyond the picture, on every side, px.</summary>
    public int Border => recipe.Stabilisation is null ? 0 : Stabilisation.Border(recipe.Stabilisation);

    /// <summary>Whether a frame is a picture of one instant in even light, as it is.</summary>
    public bool IsPlain => recipe is { Shutter: null, Light: null, Stabilisation: null, Lens: null };

    /// <summary>The frame whose picture a frame shows.</summary>
    public int Shown(int frame) => order.Shown(frame);

    /// <summary>Time that a frame's stamp tells, s since the first.</summary>
    public double StampSeconds(int frame) => order.Stamp(frame) / recipe.FrameRateHz;

    /// <summary>How a frame shows the view at rest.</summary>
    public FrameView ViewOf(int frame) => View(frame, cuts is null ? (0, 0) : cuts[Shown(frame)]);

    /// <summary>How the sensor sees the view at rest before stabilisation cuts the picture out.</summary>
    public FrameView SensorViewOf(int frame) => View(frame, (0, 0));

    /// <summary>Renders a frame.</summary>
    /// <param name="frame">Number of the frame.</param>
    /// <param name="dots">Dots of the view at rest.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    public GrayImage Render(int frame, Dot[] dots, CancellationToken cancellationToken)
    {
        int shown = Shown(frame);
        FrameView view = SensorViewOf(shown);
        int width = recipe.Width + (2 * Border);
        float[] levels = ShutterRenderer.Render(dots, view, recipe, Border, cancellationToken);
        if (recipe.Light is not null)
            new FrameLight(recipe, recipe.Light, view, shown).Apply(levels, width, Border, cancellationToken);
        GrayImage picture = Sensor.Expose(levels, width, recipe.Height + (2 * Border), recipe.Sensor, recipe.Seed, shown, cancellationToken);
        return cuts is null ? picture : Stabilisation.Cut(picture, Border, cuts[shown].X, cuts[shown].Y, recipe.Sensor.Bits != 0);
    }

    private FrameView View(int frame, (double X, double Y) cut)
    {
        int shown = Shown(frame);
        return new FrameView(motion, shown, new RowClock(order.Turn(shown) / recipe.FrameRateHz, recipe.Shutter?.ReadoutSeconds ?? 0, recipe.Height), cut, lens);
    }
}
