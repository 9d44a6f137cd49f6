using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Keys of a scene recipe; [rig] and [gas] are those of a case file.</summary>
internal static class SceneKeys
{
    private const int LargestSeed = int.MaxValue;
    private static readonly SpeckleSettings Dots = new();
    private static readonly SensorSettings Sensor = new();
    private static readonly ShakeSettings Shake = new();

    public static readonly IntegerKey Width = Whole("scene", "width_px", "Width of the pictures.", 32, 16384, null);
    public static readonly IntegerKey Height = Whole("scene", "height_px", "Height of the pictures.", 32, 16384, null);
    public static readonly IntegerKey Frames = Whole("scene", "frames", "Number of frames.", 1, 1_000_000, null);
    public static readonly IntegerKey FlowOffFrames = Whole("scene", "flow_off_frames", "Number of frames at the start without flow.", 0, 1_000_000, 0);
    public static readonly IntegerKey FlowOffFramesAfter = Whole("scene", "flow_off_frames_after", "Number of frames at the end without flow.", 0, 1_000_000, 0);
    public static readonly NumberKey FrameRate = Number("scene", "frame_rate_hz", "Frame rate.", 0, 1e6, true, 60);
    public static readonly IntegerKey Seed = Whole("scene", "seed", "Seed of noise and shake.", 0, LargestSeed, 1);

    public static readonly ChoiceKey<DotShape> Shape = new()
    {
        Section = "dots",
        Name = "shape",
        Description = "Gaussian spots, or discs as printed, blurred as by a lens.",
        Choices = [("gaussian", DotShape.Gaussian), ("disc", DotShape.Disc)],
        Default = TomlLiteral.Of("gaussian"),
    };

    public static readonly NumberKey Blur = Number("dots", "blur_px", "disc: e^-2 diameter of the blur it is seen with, four standard deviations of its Gaussian.", 0.2, 40, false, Dots.BlurPixels);
    public static readonly NumberKey Diameter = Number("dots", "diameter_px", "gaussian: e^-2 diameter of a dot's image, four standard deviations of its Gaussian. disc: diameter of its sharp image.", 0.5, 40, false, Dots.DotDiameterPixels);
    public static readonly NumberKey Density = Number("dots", "number_per_pixel", "Mean number of dots for each pixel.", 0, 1, true, Dots.DotsPerPixel);
    public static readonly NumberKey Gap = Number("dots", "least_gap_px", "Least distance between two centres; 0 = purely random.", 0, 100, false, Dots.MinimumGapPixels);
    public static readonly NumberKey ContrastFrom = Number("dots", "contrast_from", "Weakest contrast, share of full scale; negative for dark dots.", -1, 1, false, Dots.ContrastFrom);
    public static readonly NumberKey ContrastTo = Number("dots", "contrast_to", "Strongest contrast, share of full scale.", -1, 1, false, Dots.ContrastTo);
    public static readonly IntegerKey Margin = Whole("dots", "margin_px", "Width of the strip around the picture that carries dots too.", 0, 2000, Dots.MarginPixels);
    public static readonly IntegerKey DotSeed = Whole("dots", "seed", "Seed of the pattern.", 0, LargestSeed, (int)Dots.Seed);

    public static readonly NumberKey Background = Number("sensor", "background", "Level between the dots, share of full scale.", 0, 1, false, Sensor.Background);
    public static readonly NumberKey Noise = Number("sensor", "noise_percent", "Standard deviation of Gaussian noise, percent of full scale.", 0, 50, false, Sensor.NoisePercent);
    public static readonly NumberKey FullWell = Number("sensor", "full_well_electrons", "Electrons at full scale, for shot noise; none where missing.", 10, 1e9, false, null);
    public static readonly IntegerKey Bits = new() { Section = "sensor", Name = "bits", Description = "Bits of the levels; 10 and 12 are spread over pictures of 16.", Minimum = 8, Maximum = 16, Only = [8, 10, 12, 16], Default = "8" };
    public static readonly NumberKey Gamma = Number("sensor", "gamma", "Tone curve: level = light^(1 / gamma), after the noise; 1 = linear.", 0.2, 5, false, Sensor.Gamma);

    public static readonly NumberKey ShakeShift = Number("shake", "shift_px", "Largest shift from the first frame, in x and in y.", 0, 1000, false, Shake.ShiftPixels);
    public static readonly NumberKey ShakeRotation = Number("shake", "rotation_deg", "Largest rotation from the first frame.", 0, 45, false, Shake.RotationDegrees);
    public static readonly NumberKey ShakeScale = Number("shake", "scale_percent", "Largest change of scale from the first frame, percent.", 0, 20, false, Shake.ScalePercent);
    public static readonly NumberKey ShakeFrequency = Number("shake", "highest_frequency_hz", "Highest frequency of the motion.", 0, 1e5, true, Shake.HighestFrequencyHz);

    public static readonly ChoiceKey<FlowKind> Kind = new()
    {
        Section = "flow",
        Name = "kind",
        Description = "Which flow; each has keys of its own.",
        Choices = [("shift", FlowKind.Shift), ("sinusoid", FlowKind.Sinusoid), ("linear", FlowKind.Linear), ("jet", FlowKind.Jet), ("lens", FlowKind.Lens), ("wedge", FlowKind.Wedge),
            ("slab-gradient", FlowKind.SlabGradient), ("slab-stripe", FlowKind.SlabStripe), ("slab-blob", FlowKind.SlabBlob), ("shock", FlowKind.Shock)],
    };

    public static readonly NumberKey U = Number("flow", "u_px", "shift, linear: displacement to the right (linear: at the centre). sinusoid: its amplitude.", -1000, 1000, false, null);
    public static readonly NumberKey V = Number("flow", "v_px", "shift, linear: displacement down (linear: at the centre). sinusoid: its amplitude.", -1000, 1000, false, null);
    public static readonly NumberKey Wavelength = Number("flow", "wavelength_px", "sinusoid: wavelength.", 0, 1e6, true, null);
    public static readonly NumberKey Direction = Number("flow", "direction_deg", "sinusoid: direction in which it varies; jet: direction of the jet; wedge: direction of its thick side; slab-gradient: direction towards the denser side; slab-stripe: direction of its middle line; shock: direction of the oncoming flow. Counter-clockwise as seen, 0 = to the right.", -360, 360, false, null);
    public static readonly NumberKey Phase = Number("flow", "phase_deg", "sinusoid: phase at the first pixel.", -360, 360, false, 0);
    public static readonly NumberKey DuDx = Gradient("du_dx", "u along x");
    public static readonly NumberKey DuDy = Gradient("du_dy", "u along y");
    public static readonly NumberKey DvDx = Gradient("dv_dx", "v along x");
    public static readonly NumberKey DvDy = Gradient("dv_dy", "v along y");
    public static readonly NumberKey NozzleX = Number("flow", "nozzle_x_px", "jet: column of the nozzle; may lie outside the picture.", -1e5, 1e5, false, null);
    public static readonly NumberKey NozzleY = Number("flow", "nozzle_y_px", "jet: row of the nozzle.", -1e5, 1e5, false, null);
    public static readonly NumberKey HalfWidth = Number("flow", "half_width_mm", "jet, slab-stripe, slab-blob: distance from the axis (jet: at the nozzle) or centre at which the difference of density is down to 1/e.", 0, 1e4, true, null);
    public static readonly NumberKey Growth = Number("flow", "growth", "jet: growth of that radius along the axis, mm for each mm.", 0, 1, false, null);
    public static readonly NumberKey Temperature = Number("flow", "temperature_c", "jet, slab-stripe, slab-blob: temperature on the axis (jet: at the nozzle) or in the centre, at ambient pressure.", -200, 5000, false, null);
    public static readonly NumberKey LensFocalLength = Number("flow", "lens_focal_length_mm", "lens: focal length; negative for a diverging lens.", -1e7, 1e7, false, null);
    public static readonly NumberKey GlassIndex = Number("flow", "glass_index", "wedge: refractive index of the glass.", 1, 4, false, null);
    public static readonly NumberKey Apex = Number("flow", "apex_deg", "wedge: apex angle.", 0, 10, true, null);

    public static readonly NumberKey PathLength = Number("flow", "path_length_mm", "slab-gradient, slab-stripe, slab-blob, shock: length of the flow along the line of sight, half of it before the flow plane.", 0, 1e5, true, null);
    public static readonly NumberKey DensityGradient = Number("flow", "density_gradient_kg_m4", "slab-gradient: change of density for each metre; the density in the middle of the picture is the ambient one.", 0, 1e4, false, null);
    public static readonly NumberKey CentreX = Number("flow", "centre_x_px", "slab-blob: column of its centre; slab-stripe, shock: column of a point on it.", -1e5, 1e5, false, null);
    public static readonly NumberKey CentreY = Number("flow", "centre_y_px", "slab-blob: row of its centre; slab-stripe, shock: row of a point on it.", -1e5, 1e5, false, null);
    public static readonly NumberKey Mach = Number("flow", "mach", "shock: Mach number of the oncoming flow, whose density is the ambient one.", 1, 50, true, null);
    public static readonly NumberKey WedgeAngle = Number("flow", "wedge_deg", "shock: angle by which the wedge turns the flow; positive = counter-clockwise as seen.", -60, 60, false, null);
    public static readonly NumberKey ShockThickness = Number("flow", "shock_thickness_mm", "shock: jump of the density over its largest slope; stands for what blur and unevenness make of the jump.", 0, 1e3, true, null);

    /// <summary>Every section of a recipe.</summary>
    public static readonly IReadOnlyList<CaseSection> Sections =
    [
        new("scene", "Pictures.", [Width, Height, Frames, FlowOffFrames, FlowOffFramesAfter, FrameRate, Seed]),
        new("dots", "The printed pattern as it appears in the picture.", [Shape, Diameter, Blur, Density, Gap, ContrastFrom, ContrastTo, Margin, DotSeed]),
        new("sensor", "Light to digital numbers.", [Background, Noise, FullWell, Bits, Gamma]),
        new("shake", "Motion of the camera; without this section it stands still.", [ShakeShift, ShakeRotation, ShakeScale, ShakeFrequency]),
        DistortionKeys.DriftSection,
        VibrationKeys.VibrationSection,
        VibrationKeys.ShutterSection,
        DistortionKeys.LensSection,
        LightKeys.Section,
        RecorderKeys.StabilisationSection,
        RecorderKeys.RecorderSection,
        VideoKeys.Section,
        new("flow", "The flow in every frame after the flow-off frames.", [Kind, U, V, Wavelength, Direction, Phase, DuDx, DuDy, DvDx, DvDy, NozzleX, NozzleY, HalfWidth, Growth, Temperature, LensFocalLength, GlassIndex, Apex,
            PathLength, DensityGradient, CentreX, CentreY, Mach, WedgeAngle, ShockThickness]),
        RigKeys.Section,
        GasKeys.Section,
    ];

    /// <summary>The keys that each kind of flow must have; the others of [flow] are not for it, but for the phase of a sinusoid.</summary>
    public static IReadOnlyList<CaseKey> NeededBy(FlowKind kind) => kind switch
    {
        FlowKind.Shift => [U, V],
        FlowKind.Sinusoid => [U, V, Wavelength, Direction],
        FlowKind.Linear => [U, V, DuDx, DuDy, DvDx, DvDy],
        FlowKind.Jet => [NozzleX, NozzleY, Direction, HalfWidth, Growth, Temperature],
        FlowKind.Lens => [LensFocalLength],
        FlowKind.Wedge => [GlassIndex, Apex, Direction],
        FlowKind.SlabGradient => [DensityGradient, Direction, PathLength],
        FlowKind.SlabStripe => [CentreX, CentreY, Direction, HalfWidth, Temperature, PathLength],
        FlowKind.SlabBlob => [CentreX, CentreY, HalfWidth, Temperature, PathLength],
        FlowKind.Shock => [Mach, WedgeAngle, Direction, CentreX, CentreY, ShockThickness, PathLength],
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Whether a kind of flow is given in metres or degrees and needs a rig to become a displacement.</summary>
    public static bool NeedsRig(FlowKind kind) => kind is not (FlowKind.Shift or FlowKind.Sinusoid or FlowKind.Linear);

    private static NumberKey Gradient(string name, string what) => Number("flow", name, $"linear: change of {what}, px for each px.", -1, 1, false, null);

    /// <summary>A key with a number.</summary>
    internal static NumberKey Number(string section, string name, string description, double minimum, double maximum, bool above, double? standard) => new()
    {
        Section = section,
        Name = name,
        Description = description,
        Minimum = minimum,
        Maximum = maximum,
        AboveMinimum = above,
        Default = standard is double value ? TomlLiteral.Of(value) : null,
    };

    /// <summary>A key with a whole number.</summary>
    internal static IntegerKey Whole(string section, string name, string description, int minimum, int maximum, int? standard) => new()
    {
        Section = section,
        Name = name,
        Description = description,
        Minimum = minimum,
        Maximum = maximum,
        Default = standard is int value ? TomlLiteral.Of(value) : null,
    };
}
