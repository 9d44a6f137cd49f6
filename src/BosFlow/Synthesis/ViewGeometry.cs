using BosFlow.Optics;

namespace BosFlow.Synthesis;

/// <summary>
/// The pinhole camera of a scene: pinhole at the origin, z towards the background, x right, y down; the optical axis meets the picture's centre.
/// </summary>
/// <param name="LensToFlowMetres">Z_A, m.</param>
/// <param name="FlowToBackgroundMetres">Z_D, m.</param>
/// <param name="BackgroundMetresPerPixel">S, m/px.</param>
/// <param name="CentreX">x of the optical axis in the picture, px.</param>
/// <param name="CentreY">y of the optical axis, px.</param>
/// <param name="AmbientIndex">Refractive index of the surrounding gas, 1.</param>
public sealed record ViewGeometry(double LensToFlowMetres, double FlowToBackgroundMetres, double BackgroundMetresPerPixel, double CentreX, double CentreY, double AmbientIndex)
{
    /// <summary>Z_B: pinhole to background, m.</summary>
    public double BackgroundDistanceMetres => LensToFlowMetres + FlowToBackgroundMetres;

    /// <summary>Scale in the flow plane, m/px.</summary>
    public double FlowMetresPerPixel => BackgroundMetresPerPixel * LensToFlowMetres / BackgroundDistanceMetres;

    /// <summary>The camera of a rig that takes pictures of a size.</summary>
    /// <param name="rig">Distances.</param>
    /// <param name="scale">Scale and ambient index.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    public static ViewGeometry Of(RigGeometry rig, OpticalScale scale, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(rig);
        ArgumentNullException.ThrowIfNull(scale);
        return new ViewGeometry(rig.LensToFlowMetres, rig.FlowToBackgroundMetres, scale.BackgroundMetresPerPixel, (width - 1) / 2.0, (height - 1) / 2.0, scale.AmbientIndex);
    }

    /// <summary>Where the line of sight of a pixel meets the flow plane in the undisturbed gas, m.</summary>
    /// <param name="x">Column, px.</param>
    /// <param name="y">Row, px.</param>
    public (double X, double Y) OnFlowPlane(double x, double y) => ((x - CentreX) * FlowMetresPerPixel, (y - CentreY) * FlowMetresPerPixel);

    /// <summary>Where the line of sight of a pixel meets the background in the undisturbed gas, m.</summary>
    /// <param name="x">Column, px.</param>
    /// <param name="y">Row, px.</param>
    public (double X, double Y) OnBackground(double x, double y) => ((x - CentreX) * BackgroundMetresPerPixel, (y - CentreY) * BackgroundMetresPerPixel);
}
