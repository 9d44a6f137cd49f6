using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>A whole run through a lens that bends the corners by 5 %: a jet filmed by a shaken camera, several flow-off frames, against exact truth in the ideal picture.</summary>
public static class LensRunStudy
{
    private const double LargestRms = 0.01;
    private const int Width = 640;
    private const int Height = 480;
    private static readonly LensParameters Barrel = LensParameters.Undistorted(Width, Height, 600) with { Radial1 = -0.102 };

    /// <summary>The scene.</summary>
    /// <param name="lens">Its lens; null = an ideal one.</param>
    public static SceneRecipe Recipe(LensParameters? lens) => new()
    {
        Width = Width,
        Height = Height,
        FrameCount = 16,
        FlowOffCount = 8,
        Flow = new FlowRecipe.Jet(320, 520, 80, 7e-3, 0.1, 573.15),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 5e-6, FNumber = 11 },
        Lens = lens,
        Shake = new ShakeSettings { ShiftPixels = 6, RotationDegrees = 0.1, ScalePercent = 0.03, HighestFrequencyHz = 12 },
        Speckle = new SpeckleSettings { Seed = 51, DotsPerPixel = 0.05, MarginPixels = 60 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = 52,
    };

    /// <summary>Carries the study out.</summary>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        double ideal = SceneRun.ErrorOfMean(Recipe(null), isCorrected: true, settings, cancellationToken);
        double corrected = SceneRun.ErrorOfMean(Recipe(Barrel), isCorrected: true, settings, cancellationToken);
        double uncorrected = SceneRun.ErrorOfMean(Recipe(Barrel), isCorrected: false, settings, cancellationToken);
        Figure[] figures =
        [
            new("lens, whole run", "RMS error of the mean displacement, a component, lens corrected", corrected, "px", null, LargestRms),
            new("lens, whole run", "the same through an ideal lens", ideal, "px", null, null),
            new("lens, whole run", "the same, lens not corrected", uncorrected, "px", null, null),
        ];
        LensDistortion corner = LensDistortion.AtCorner(new LensModel(Barrel));
        return new StudyResult(
            "Lens, whole run",
            FormattableString.Invariant($"A jet at {Width} x {Height} px, 8 bit, noise 1 %, 8 flow-off and 8 flow frames, shaken by up to 6 px and 0.1 degrees, through a lens that moves the corner by {corner.Pixels:0.0} px ({100 * corner.Share:0.0} %); reference, registration and vectors all go through the lens, and the mean field is compared with the exact one of the ideal picture at the same place."),
            figures,
            []);
    }
}
