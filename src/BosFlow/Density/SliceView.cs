namespace BosFlow.Density;

/// <summary>
/// A slice through a round flow, across its axis: which pixel sees the ray that passes the axis at a distance b, and what its displacement says of the
/// slope of the projection there.
/// </summary>
/// <remarks>
/// Projected onto the slice, the pinhole lies at the distance D = sqrt(Z_A^2 + c^2) from the axis, c being the offset of the axis from the optical axis. The ray
/// at the angle theta from the line between them passes the axis at b = D sin(theta), which is the radius to invert on, and is bent at its nearest point,
/// z_b = D cos(theta) cos(psi) from the pinhole, psi = theta + atan(c / Z_A) being its angle from the optical axis. A bend by eps moves its end on the background by
/// (Z_B - z_b) eps / cos(psi)^2, so that u = -(Z_B - z_b) eps / (S cos(psi)^2). A ray inclined by phi along the axis has a path longer by 1 / cos(phi),
/// and its projection turns by 1 / cos(phi)^2 more. Paraxially this is u = -Z_D eps / S. All derived; the tests compare it with traced rays.
/// </remarks>
internal sealed class SliceView
{
    private readonly SightGeometry sight;
    private readonly double offset;
    private readonly double offsetAngle;
    private readonly double distance;
    private readonly double alongFromCentre;

    /// <summary>The slice at a station.</summary>
    /// <param name="sight">Lines of sight.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="along">Position of the slice along the axis, px.</param>
    public SliceView(SightGeometry sight, AxisFrame axis, double along)
    {
        this.sight = sight;
        (double centreAlong, double centreRight) = axis.Split(sight.CentreX, sight.CentreY);
        offset = -centreRight * sight.FlowMetresPerPixel;
        alongFromCentre = (along - centreAlong) * sight.FlowMetresPerPixel;
        offsetAngle = Math.Atan(offset / sight.LensToFlowMetres);
        distance = Math.Sqrt((sight.LensToFlowMetres * sight.LensToFlowMetres) + (offset * offset));
    }

    /// <summary>Where the ray at a distance from the axis is seen.</summary>
    /// <param name="b">Distance from the axis, m; positive to the right of it; less than the distance of the lens.</param>
    /// <returns>Distance from the axis on the picture, px.</returns>
    public double RightPixels(double b) =>
        ((sight.LensToFlowMetres * Math.Tan(offsetAngle + Math.Asin(b / distance))) - offset) / sight.FlowMetresPerPixel;

    /// <summary>The slope of the projection, d/db of the integral of (n - n0) along the straight ray, for 1 px of displacement to the right.</summary>
    /// <param name="b">Distance from the axis, m; positive to the right of it.</param>
    /// <returns>1/px, negative.</returns>
    public double SlopePerPixel(double b)
    {
        double theta = Math.Asin(b / distance);
        double cosinePsi = Math.Cos(offsetAngle + theta);
        double bend = distance * Math.Cos(theta) * cosinePsi;
        double tangentPhi = alongFromCentre * cosinePsi / sight.LensToFlowMetres;
        double cosinePhiSquared = 1 / (1 + (tangentPhi * tangentPhi));
        return -sight.AmbientIndex * sight.BackgroundMetresPerPixel * cosinePsi * cosinePsi * cosinePhiSquared / (sight.BackgroundDistanceMetres - bend);
    }
}
