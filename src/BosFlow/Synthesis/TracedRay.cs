namespace BosFlow.Synthesis;

/// <summary>Where a traced ray meets the background, and what it gathered on its way.</summary>
/// <param name="X">x on the background, m.</param>
/// <param name="Y">y on the background (down), m.</param>
/// <param name="IndexGradientPathX">Integral of dn/dx along the ray, 1.</param>
/// <param name="IndexGradientPathY">Integral of dn/dy along the ray, 1.</param>
public readonly record struct TracedRay(double X, double Y, double IndexGradientPathX, double IndexGradientPathY);
