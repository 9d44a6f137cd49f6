namespace BosFlow.Synthesis;

/// <summary>A straight shock: the density rises from that of the surrounding gas, which is the oncoming one, to the one behind it; rho - rho0 = jump (1 + tanh(2 d / thickness)) / 2, d the distance behind its middle.</summary>
/// <param name="PointX">x of a point on it, m.</param>
/// <param name="PointY">y (down) of that point, m.</param>
/// <param name="BehindX">x of the unit vector square to it that points to the side behind, 1.</param>
/// <param name="BehindY">y of that vector, 1.</param>
/// <param name="Jump">rho2 - rho1, kg/m3.</param>
/// <param name="ThicknessMetres">Jump over largest slope, m, greater than 0.</param>
/// <remarks>A real shock is some mean free paths thick. The thickness here stands for what a picture shows of it: its blur, its unevenness along the line of sight, its shaking.</remarks>
public sealed record ShockDensity(double PointX, double PointY, double BehindX, double BehindY, double Jump, double ThicknessMetres) : IDensityProfile
{
    /// <inheritdoc/>
    public DensitySample At(double x, double y)
    {
        double behind = ((x - PointX) * BehindX) + ((y - PointY) * BehindY);
        double wave = Math.Tanh(2 * behind / ThicknessMetres);
        double slope = Jump / ThicknessMetres * (1 - (wave * wave));
        return new DensitySample(Jump * (1 + wave) / 2, slope * BehindX, slope * BehindY);
    }
}
