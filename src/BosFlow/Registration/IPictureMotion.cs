namespace BosFlow.Registration;

/// <summary>Where every point of the reference picture is found in a frame when only camera and board moved.</summary>
public interface IPictureMotion
{
    /// <summary>The planar motion nearest to it: what one frame did as a whole.</summary>
    PlanarMotion Planar { get; }

    /// <summary>Displacement of a reference point caused by this motion.</summary>
    /// <param name="x">Column in the reference, px.</param>
    /// <param name="y">Row in the reference, px.</param>
    /// <returns>Position in the frame minus position in the reference, px.</returns>
    (double U, double V) DisplacementAt(double x, double y);
}
