namespace BosFlow.Synthesis;

/// <summary>A thin lens on the optical axis in the flow plane: magnifies (F greater than 0) or shrinks the background about the centre, exactly.</summary>
/// <param name="View">The camera.</param>
/// <param name="FocalLengthMetres">Focal length F of the lens, m; negative for a diverging one.</param>
/// <remarks>eps = -X_flow / F gives X_on = X_off / (1 - k), k = Z_A Z_D / (F Z_B): the two-lens magnification of geometrical optics (E. Hecht, Optics, chapter 5).</remarks>
public sealed record WeakLensField(ViewGeometry View, double FocalLengthMetres) : IFlowField
{
    /// <inheritdoc/>
    public FlowSample At(double x, double y)
    {
        double k = View.LensToFlowMetres * View.FlowToBackgroundMetres / (FocalLengthMetres * View.BackgroundDistanceMetres);
        double u = (x - View.CentreX) * k / (1 - k);
        double v = (y - View.CentreY) * k / (1 - k);
        (double flowX, double flowY) = View.OnFlowPlane(x + u, y + v);
        double perMetre = -View.AmbientIndex / FocalLengthMetres;
        return new FlowSample(u, v, perMetre * flowX, perMetre * flowY);
    }
}
