namespace BosFlow.Synthesis;

/// <summary>Refractive index at one point, against the surrounding gas.</summary>
/// <param name="Excess">n - n0, 1; negative for hot gas.</param>
/// <param name="GradientX">dn/dx, 1/m.</param>
/// <param name="GradientY">dn/dy (y down), 1/m.</param>
/// <param name="GradientZ">dn/dz, 1/m.</param>
public readonly record struct IndexSample(double Excess, double GradientX, double GradientY, double GradientZ);
