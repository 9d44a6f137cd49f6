namespace BosFlow.Synthesis;

/// <summary>A hot jet by thin-ray theory: path integrals in closed form along straight lines parallel to the optical axis.</summary>
/// <param name="View">The camera.</param>
/// <param name="Jet">The jet.</param>
/// <remarks>
/// The integral of n - n0 along z is P = sqrt(pi) delta a exp(-q^2 / a^2), q the distance from the axis in the picture's plane (delta a does not depend on s);
/// dP/dq = -2 q / a^2 P, dP/ds = 2 q^2 a' / a^3 P; eps = grad P / n0; u = -Z_D eps / S. Neglects obliquity, bending inside the flow, and the shift of
/// the line of sight by the displacement itself: about 1e-2 of the peak for a close camera. <see cref="TracedField"/> has all of it.
/// </remarks>
public sealed record ThinJetField(ViewGeometry View, HotJet Jet) : IFlowField
{
    /// <inheritdoc/>
    public FlowSample At(double x, double y)
    {
        (double flowX, double flowY) = View.OnFlowPlane(x, y);
        (double s, double q) = Jet.Split(flowX, flowY);
        double a = Jet.HalfWidthAt(s);
        double path = Math.Sqrt(Math.PI) * Jet.IndexExcessAt(s) * a * Math.Exp(-q * q / (a * a));
        double across = -2 * q / (a * a) * path;
        double along = 2 * q * q * Jet.Growth / (a * a * a) * path;
        (double ax, double ay) = Jet.Axis;
        double gradientX = (along * ax) - (across * ay);
        double gradientY = (along * ay) + (across * ax);
        double perGradient = -View.FlowToBackgroundMetres / (View.BackgroundMetresPerPixel * View.AmbientIndex);
        return new FlowSample(perGradient * gradientX, perGradient * gradientY, gradientX, gradientY);
    }
}
