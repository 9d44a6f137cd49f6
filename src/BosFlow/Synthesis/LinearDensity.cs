namespace BosFlow.Synthesis;

/// <summary>Density that grows linearly from that of the surrounding gas on the optical axis.</summary>
/// <param name="GradientX">d rho / dx, kg/m4.</param>
/// <param name="GradientY">d rho / dy (y down), kg/m4.</param>
public sealed record LinearDensity(double GradientX, double GradientY) : IDensityProfile
{
    /// <inheritdoc/>
    public DensitySample At(double x, double y) => new((GradientX * x) + (GradientY * y), GradientX, GradientY);
}
