using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>
/// Colours for numbers. All are made here, by formulas in CIE L*a*b*: lightness is linear in the number, so that
/// equal steps look equal, in print and to the colour-blind too.
/// </summary>
public sealed class ColourMap
{
    private const int Steps = 1024;
    private readonly SKColor[] colours;

    private ColourMap(string name, bool signed, Func<double, CieLab> formula, SKColor notMeasured, SKColor mask, SKColor hatch)
    {
        Name = name;
        IsSigned = signed;
        NotMeasured = notMeasured;
        Mask = mask;
        Hatch = hatch;
        colours = new SKColor[Steps + 1];
        for (int i = 0; i <= Steps; i++)
        {
            (byte red, byte green, byte blue) = formula(i / (double)Steps).ToSrgb();
            colours[i] = new SKColor(red, green, blue);
        }
    }

    /// <summary>For magnitudes: dark violet over red to pale yellow, L* 14 to 95.</summary>
    public static ColourMap Magnitude { get; } = new(
        "magnitude", false, t => CieLab.OfHue(14 + (81 * t), 34 + (122 * t) - (140 * t * t), 300 + (150 * t)), new(0xc4, 0xc8, 0xcc), new(0xe2, 0xe4, 0xe6), new(0x8c, 0x92, 0x98));

    /// <summary>For densities: dark blue (thin) over teal to pale green (dense), L* 14 to 95.</summary>
    public static ColourMap Density { get; } = new(
        "density", false, t => CieLab.OfHue(14 + (81 * t), 24 - (10 * t) + (60 * t * t) - (50 * t * t * t), 290 - (180 * t)), new(0xc4, 0xc8, 0xcc), new(0xe2, 0xe4, 0xe6), new(0x8c, 0x92, 0x98));

    /// <summary>For temperatures: dark red over orange to pale yellow, L* 14 to 95.</summary>
    public static ColourMap Temperature { get; } = new(
        "temperature", false, t => CieLab.OfHue(14 + (81 * t), 28 + (130 * t) - (118 * t * t), 12 + (88 * t)), new(0xc4, 0xc8, 0xcc), new(0xe2, 0xe4, 0xe6), new(0x8c, 0x92, 0x98));

    /// <summary>For signed quantities: blue (negative) over near-white (zero) to brown-orange (positive), both sides equally dark at equal distance, L* 96 to 34.</summary>
    public static ColourMap Signed { get; } = new(
        "signed", true, t => Arm((2 * t) - 1), new(0xb4, 0xb8, 0xbc), new(0xdc, 0xde, 0xe0), new(0x8c, 0x92, 0x98));

    /// <summary>For knife-edge views: black (negative) over mid-grey (zero) to white (positive), L* 4 to 96.</summary>
    public static ColourMap KnifeEdge { get; } = new(
        "knife edge", true, t => new CieLab(4 + (92 * t), 0, 0), new(0xe6, 0xd8, 0xae), new(0xf2, 0xea, 0xd0), new(0xb0, 0x92, 0x4e));

    /// <summary>Name in words.</summary>
    public string Name { get; }

    /// <summary>Whether the middle of the map means zero.</summary>
    public bool IsSigned { get; }

    internal SKColor NotMeasured { get; }

    internal SKColor Mask { get; }

    internal SKColor Hatch { get; }

    /// <summary>The colour of a position in the range.</summary>
    /// <param name="position">0 = low end, 1 = high end; beyond the ends the end colours; not NaN.</param>
    public SKColor At(double position) => colours[(int)Math.Round(Math.Clamp(position, 0, 1) * Steps)];

    private static CieLab Arm(double s)
    {
        double distance = Math.Abs(s);
        return CieLab.OfHue(96 - (62 * distance), (138 * distance) - (100 * distance * distance), s < 0 ? 276 : 50);
    }
}
