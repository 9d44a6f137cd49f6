namespace BosFlow.Synthesis;

/// <summary>A thin wedge of glass in the flow plane: the same deflection (n - 1) alpha everywhere, towards its thick side.</summary>
/// <param name="View">The camera.</param>
/// <param name="GlassIndex">Refractive index of the glass relative to the gas, 1.</param>
/// <param name="ApexDegrees">Apex angle alpha, degrees, a few at most.</param>
/// <param name="ThickSideDegrees">Direction of the thick side, degrees counter-clockwise as seen on the picture; 0 = to the right.</param>
/// <remarks>Source: thin-prism formula of geometrical optics (E. Hecht, Optics, chapter 5). The dots move away from the thick side.</remarks>
public sealed record WedgeField(ViewGeometry View, double GlassIndex, double ApexDegrees, double ThickSideDegrees) : IFlowField
{
    /// <summary>Deflection towards the thick side, rad.</summary>
    public double DeflectionRadians => (GlassIndex - 1) * double.DegreesToRadians(ApexDegrees);

    /// <inheritdoc/>
    public FlowSample At(double x, double y)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(ThickSideDegrees));
        double epsX = DeflectionRadians * cosine;
        double epsY = -DeflectionRadians * sine;
        double perRadian = -View.FlowToBackgroundMetres / View.BackgroundMetresPerPixel;
        return new FlowSample(perRadian * epsX, perRadian * epsY, View.AmbientIndex * epsX, View.AmbientIndex * epsY);
    }
}
