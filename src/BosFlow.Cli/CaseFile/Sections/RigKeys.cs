using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [rig].</summary>
internal static class RigKeys
{
    private const string Name = "rig";

    public static readonly NumberKey LensToFlow = Length("lens_to_flow_mm", "Distance from the lens (its entrance pupil) to the middle of the flow.", 1e7, 1200);

    public static readonly NumberKey FlowToBackground = Length("flow_to_background_mm", "Distance from the middle of the flow to the printed background.", 1e7, 800);

    public static readonly NumberKey BackgroundScale = Length(
        "background_mm_per_px",
        "Scale measured in the background plane: a length on the board in mm, divided by its length in the reference in px. Give either this or focal_length_mm with pixel_pitch_um.",
        1e3,
        0.31);

    public static readonly NumberKey FocalLength = Length("focal_length_mm", "Focal length of the lens (the real one, not the equivalent for another sensor size).", 1e5, 16);

    public static readonly NumberKey PixelPitch = Length("pixel_pitch_um", "Distance between neighbouring pixels on the sensor, for the picture size of the footage.", 1e3, 1.55);

    public static readonly NumberKey FNumber = Length("f_number", "f-number of the lens: for the blur stated in the report, and for bosflow plan.", 128, 2.8);

    public static readonly NumberKey LensToFlowSigma = NumberKey.Uncertainty(Name, "lens_to_flow_sigma_mm", "Standard uncertainty of lens_to_flow_mm; the entrance pupil of a long lens lies some cm inside.", 1e6, 5);

    public static readonly NumberKey FlowToBackgroundSigma = NumberKey.Uncertainty(Name, "flow_to_background_sigma_mm", "Standard uncertainty of flow_to_background_mm.", 1e6, 3);

    public static readonly NumberKey BackgroundScaleSigma = NumberKey.Uncertainty(Name, "background_scale_sigma_percent", "Standard uncertainty of background_mm_per_px.", 50, 0.3);

    public static readonly NumberKey FocalLengthSigma = NumberKey.Uncertainty(Name, "focal_length_sigma_mm", "Standard uncertainty of focal_length_mm; labels are rounded, by up to 5 %.", 1e4, 0.3);

    public static readonly CaseSection Section = new(
        Name,
        "Distances and camera: measure them, write them here, and remove the #. Without this section (heading and all) only displacements in px are measured, no gradients.",
        [
            LensToFlow, FlowToBackground, BackgroundScale, FocalLength, PixelPitch, FNumber,
            LensToFlowSigma, FlowToBackgroundSigma, BackgroundScaleSigma, FocalLengthSigma,
        ]);

    private static NumberKey Length(string name, string description, double maximum, double example) => NumberKey.Positive(Name, name, description, maximum, example);
}
