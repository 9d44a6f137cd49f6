using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>A board that bends by heat while a jet is filmed: error with flow-off frames before and after, and with those before alone.</summary>
public static class DriftStudy
{
    private const double BendPixels = 0.5;
    private const double LargestRatio = 1.3;

    /// <summary>The scene.</summary>
    /// <param name="bendPixels">Bending at the end of the clip, px.</param>
    public static SceneRecipe Recipe(double bendPixels) => new()
    {
        Width = 640,
        Height = 480,
        FrameCount = 24,
        FlowOffCount = 8,
        FlowOffAfterCount = 8,
        Flow = new FlowRecipe.Jet(320, 520, 80, 7e-3, 0.1, 573.15),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 5e-6, FNumber = 11 },
        Drift = bendPixels == 0 ? null : new DriftSettings { BendPixels = bendPixels, ScalePercent = 0.1, ShiftPixels = 2 },
        Shake = new ShakeSettings { ShiftPixels = 4, RotationDegrees = 0.06, HighestFrequencyHz = 12 },
        Speckle = new SpeckleSettings { Seed = 61, DotsPerPixel = 0.05, MarginPixels = 30 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = 62,
    };

    /// <summary>Carries the study out.</summary>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        double still = SceneRun.ErrorOfMean(Recipe(0), isCorrected: false, settings, cancellationToken);
        double removed = SceneRun.ErrorOfMean(Recipe(BendPixels), isCorrected: true, settings, cancellationToken);
        double left = SceneRun.ErrorOfMean(Recipe(BendPixels), isCorrected: false, settings, cancellationToken);
        Figure[] figures =
        [
            new("drift", "RMS error of the mean displacement, a component, board that does not drift", still, "px", null, null),
            new("drift", "the same, board that bends, drift left in", left, "px", null, null),
            new("drift", "the same, drift taken out by flow-off frames before and after", removed, "px", null, null),
            new("drift", "error with drift taken out over that of a board that does not drift", removed / still, "1", null, LargestRatio),
        ];
        return new StudyResult(
            "Drift",
            FormattableString.Invariant($"A jet at 640 x 480 px, 8 bit, noise 1 %, 8 flow frames between twice 8 flow-off frames, shaken by up to 4 px; in proportion to time the view bends by {BendPixels} px at the edges, stretches by 0.1 % and shifts by 2 px. Stretch and shift go with the registration of every frame, the bending does not."),
            figures,
            []);
    }
}
