namespace BosFlow.Optics;

/// <summary>Size of the image of a printed disc. All lengths in one unit, on the sensor.</summary>
/// <remarks>
/// e^-2 diameter (four standard deviations) d = sqrt(disc^2 + diffraction^2 + defocus^2). Variances add when spots are convolved; a uniform disc of diameter D has the
/// variance D^2 / 16 along an axis, that of a Gaussian of e^-2 diameter D (derived), so discs of ink and of defocus enter with their diameters. The diffraction
/// spot enters with its own e^-2 diameter, 0.674 of its first dark ring; the usual sum takes the whole ring (M. Raffel et al., Particle Image Velocimetry, chapter 2, from memory) and
/// makes dots up to half as large again. The averaging over the pixel is not in it: rules for dot sizes do not count it; add 2 / sqrt(3) = 1.155 px in quadrature for it.
/// </remarks>
public static class DotImage
{
    /// <summary>Four standard deviations of a square pixel's averaging along an axis, px: 4 / sqrt(12).</summary>
    public const double PixelDiameter = 1.1547005383792515;

    /// <summary>e^-2 diameter of the diffraction spot over its first dark ring: (2 J1(x) / x)^2 = e^-2 at x = 2.5838, 0 at x = 3.8317.</summary>
    public const double SpotShare = 0.6743;

    /// <summary>e^-2 diameter of the image of a disc.</summary>
    /// <param name="disc">Diameter of the disc's sharp image.</param>
    /// <param name="diffraction">First dark ring of the diffraction spot.</param>
    /// <param name="defocus">Diameter of the circle of confusion.</param>
    public static double Diameter(double disc, double diffraction, double defocus) =>
        Math.Sqrt((disc * disc) + (SpotShare * SpotShare * diffraction * diffraction) + (defocus * defocus));

    /// <summary>Disc whose image has a given e^-2 diameter.</summary>
    /// <param name="image">e^-2 diameter of the image.</param>
    /// <param name="blur">e^-2 diameter of all blur.</param>
    /// <returns>Diameter of the disc's sharp image; null where blur alone is as large.</returns>
    public static double? DiscFor(double image, double blur) => image > blur ? Math.Sqrt((image * image) - (blur * blur)) : null;
}
