namespace BosFlow.Synthesis;

/// <summary>Density at one point, against the surrounding gas.</summary>
/// <param name="Excess">rho - rho0, kg/m3; negative for hot gas.</param>
/// <param name="GradientX">d rho / dx, kg/m4.</param>
/// <param name="GradientY">d rho / dy (y down), kg/m4.</param>
public readonly record struct DensitySample(double Excess, double GradientX, double GradientY);
