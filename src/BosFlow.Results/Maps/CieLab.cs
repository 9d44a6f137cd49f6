namespace BosFlow.Results.Maps;

/// <summary>
/// A colour in CIE 1976 L*a*b* under D65. Source: CIE 15 (Colorimetry), equations of L*a*b*; IEC 61966-2-1 (sRGB) for
/// primaries and transfer curve.
/// </summary>
/// <param name="Lightness">L*, 0 (black) to 100 (white): equal steps look equally large.</param>
/// <param name="A">a*, green to red.</param>
/// <param name="B">b*, blue to yellow.</param>
public readonly record struct CieLab(double Lightness, double A, double B)
{
    private const double WhiteX = 0.95047;
    private const double WhiteZ = 1.08883;
    private const double Knee = 6.0 / 29;

    /// <summary>The colour of a hue and chroma.</summary>
    /// <param name="lightness">L*, 0 to 100.</param>
    /// <param name="chroma">Distance from grey, at least 0.</param>
    /// <param name="hueDegrees">Angle from +a* towards +b*, degrees.</param>
    public static CieLab OfHue(double lightness, double chroma, double hueDegrees)
    {
        (double sine, double cosine) = Math.SinCos(hueDegrees * Math.PI / 180);
        return new CieLab(lightness, chroma * cosine, chroma * sine);
    }

    /// <summary>The colour of an sRGB triple.</summary>
    /// <param name="red">0 to 255.</param>
    /// <param name="green">0 to 255.</param>
    /// <param name="blue">0 to 255.</param>
    public static CieLab OfSrgb(byte red, byte green, byte blue)
    {
        double r = Linear(red / 255.0);
        double g = Linear(green / 255.0);
        double b = Linear(blue / 255.0);
        double x = Curve(((0.4124564 * r) + (0.3575761 * g) + (0.1804375 * b)) / WhiteX);
        double y = Curve((0.2126729 * r) + (0.7151522 * g) + (0.0721750 * b));
        double z = Curve(((0.0193339 * r) + (0.1191920 * g) + (0.9503041 * b)) / WhiteZ);
        return new CieLab((116 * y) - 16, 500 * (x - y), 200 * (y - z));
    }

    /// <summary>The nearest sRGB triple; channels outside the screen's range are cut.</summary>
    public (byte Red, byte Green, byte Blue) ToSrgb()
    {
        double fy = (Lightness + 16) / 116;
        double x = WhiteX * Inverse(fy + (A / 500));
        double y = Inverse(fy);
        double z = WhiteZ * Inverse(fy - (B / 200));
        return (
            Encoded((3.2404542 * x) - (1.5371385 * y) - (0.4985314 * z)),
            Encoded((-0.9692660 * x) + (1.8760108 * y) + (0.0415560 * z)),
            Encoded((0.0556434 * x) - (0.2040259 * y) + (1.0572252 * z)));
    }

    /// <summary>Colour difference CIE 1976: the distance in L*a*b*.</summary>
    /// <param name="other">The other colour.</param>
    public double DistanceTo(CieLab other)
    {
        double l = Lightness - other.Lightness;
        double a = A - other.A;
        double b = B - other.B;
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    private static double Linear(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);

    private static double Curve(double value) => value > Knee * Knee * Knee ? Math.Cbrt(value) : (value / (3 * Knee * Knee)) + (4.0 / 29);

    private static double Inverse(double value) => value > Knee ? value * value * value : 3 * Knee * Knee * (value - (4.0 / 29));

    private static byte Encoded(double linear)
    {
        double value = linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055;
        return (byte)Math.Round(Math.Clamp(value, 0, 1) * 255);
    }
}
