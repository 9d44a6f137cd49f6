using BosFlow.Camera;

namespace BosFlow.Registration;

/// <summary>A motion of the ideal picture as the picture behind a lens shows it: a shift is larger in the middle of a barrel-shaped picture than in its corners.</summary>
/// <param name="ideal">The motion in the ideal picture.</param>
/// <param name="lens">The lens.</param>
public sealed class LensedMotion(IPictureMotion ideal, LensModel lens) : IPictureMotion
{
    /// <summary>The motion in the ideal picture.</summary>
    public IPictureMotion Ideal => ideal;

    /// <inheritdoc/>
    public PlanarMotion Planar => ideal.Planar;

    /// <inheritdoc/>
    /// <remarks>Where the lens shows nothing the ideal motion stands in: nothing is measured there.</remarks>
    public (double U, double V) DisplacementAt(double x, double y)
    {
        (double idealX, double idealY) = lens.ToIdeal(x, y);
        (double u, double v) = ideal.DisplacementAt(idealX, idealY);
        (double seenX, double seenY) = lens.ToPicture(idealX + u, idealY + v);
        return double.IsFinite(seenX + seenY) ? (seenX - x, seenY - y) : ideal.DisplacementAt(x, y);
    }

    /// <summary>A motion in the coordinates of the ideal picture.</summary>
    /// <param name="motion">A motion as seen through a lens, or one that is ideal already.</param>
    public static IPictureMotion ToIdeal(IPictureMotion motion) => motion is LensedMotion seen ? seen.Ideal : motion;
}
