namespace BosFlow.Density;

/// <summary>Where the lines of sight of the picture run: distances, scale, and where the optical axis meets the picture.</summary>
/// <param name="LensToFlowMetres">Z_A, m.</param>
/// <param name="BackgroundDistanceMetres">Z_B = Z_A + Z_D, m.</param>
/// <param name="BackgroundMetresPerPixel">S, m/px.</param>
/// <param name="FlowMetresPerPixel">Scale in the flow plane, m/px.</param>
/// <param name="CentreX">x of the optical axis (the middle of the picture), px.</param>
/// <param name="CentreY">y of the optical axis, px.</param>
/// <param name="AmbientIndex">n0, 1.</param>
internal sealed record SightGeometry(
    double LensToFlowMetres, double BackgroundDistanceMetres, double BackgroundMetresPerPixel, double FlowMetresPerPixel, double CentreX, double CentreY, double AmbientIndex)
{
    /// <summary>The lines of sight of a request.</summary>
    public static SightGeometry Of(DensityRequest request, DensityConversion conversion) => new(
        request.Rig.LensToFlowMetres, request.Rig.LensToFlowMetres + request.Rig.FlowToBackgroundMetres, conversion.BackgroundMetresPerPixel, conversion.FlowMetresPerPixel,
        (request.Width - 1) / 2.0, (request.Height - 1) / 2.0, conversion.AmbientIndex);
}
