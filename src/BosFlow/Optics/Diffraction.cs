namespace BosFlow.Optics;

/// <summary>The spot that a perfect round lens makes of a point.</summary>
/// <remarks>
/// Diameter of the first dark ring: 2.44 N lambda (1 + M), the factor 1 + M because the sensor stands at f (1 + M) from the lens. 2.44 is 2 times 1.21967, the first
/// zero of J1(pi x) / x. Source: G. B. Airy 1835; e.g. E. Hecht, Optics, chapter 10 (from memory).
/// </remarks>
public static class Diffraction
{
    private const double FirstDarkRing = 2.44;

    /// <summary>Diameter of the first dark ring.</summary>
    /// <param name="fNumber">N, 1, greater than 0.</param>
    /// <param name="wavelength">lambda, m.</param>
    /// <param name="magnification">M, 1, 0 for a distant object.</param>
    /// <returns>m on the sensor.</returns>
    public static double SpotDiameter(double fNumber, double wavelength, double magnification) =>
        FirstDarkRing * fNumber * wavelength * (1 + magnification);

    /// <summary>f-number whose spot has a given diameter.</summary>
    /// <param name="diameter">Diameter of the first dark ring, m on the sensor.</param>
    /// <param name="wavelength">lambda, m.</param>
    /// <param name="magnification">M, 1.</param>
    /// <returns>N, 1.</returns>
    public static double FNumberFor(double diameter, double wavelength, double magnification) =>
        diameter / SpotDiameter(1, wavelength, magnification);
}
