namespace BosFlow.Cli.CaseFile;

/// <summary>A unit at the end of a key's name.</summary>
/// <param name="Suffix">How it ends the name, without the underscore.</param>
/// <param name="Words">The unit as people write it.</param>
/// <param name="Dimension">Units of one dimension can be converted.</param>
/// <param name="Factor">Value in SI = Factor * (value + Offset).</param>
/// <param name="Offset">Shift before the factor, for temperatures.</param>
internal sealed record UnitSuffix(string Suffix, string Words, string Dimension, double Factor, double Offset = 0)
{
    // Longest first, so that m3_per_kg is not taken for kg.
    private static readonly UnitSuffix[] Known = [.. new UnitSuffix[]
    {
        new("km", "km", "length", 1e3),
        new("m", "m", "length", 1),
        new("cm", "cm", "length", 1e-2),
        new("mm", "mm", "length", 1e-3),
        new("um", "µm", "length", 1e-6),
        new("nm", "nm", "length", 1e-9),
        new("in", "inch", "length", 0.0254),
        new("inch", "inch", "length", 0.0254),
        new("ft", "ft", "length", 0.3048),
        new("mm_per_px", "mm per px", "scale", 1e-3),
        new("um_per_px", "µm per px", "scale", 1e-6),
        new("m_per_px", "m per px", "scale", 1),
        new("s", "s", "time", 1),
        new("seconds", "s", "time", 1),
        new("ms", "ms", "time", 1e-3),
        new("us", "µs", "time", 1e-6),
        new("hz", "Hz", "rate", 1),
        new("khz", "kHz", "rate", 1e3),
        new("fps", "frames per second", "rate", 1),
        new("deg", "degrees", "angle", Math.PI / 180),
        new("rad", "rad", "angle", 1),
        new("mrad", "mrad", "angle", 1e-3),
        new("urad", "µrad", "angle", 1e-6),
        new("m_per_s", "m/s", "speed", 1),
        new("km_per_h", "km/h", "speed", 1 / 3.6),
        new("pa", "Pa", "pressure", 1),
        new("hpa", "hPa", "pressure", 100),
        new("kpa", "kPa", "pressure", 1e3),
        new("mbar", "mbar", "pressure", 100),
        new("bar", "bar", "pressure", 1e5),
        new("c", "degC", "temperature", 1, 273.15),
        new("k", "K", "temperature", 1),
        new("f", "degF", "temperature", 5.0 / 9, 459.67),
        new("kg_m3", "kg/m3", "density", 1),
        new("g_m3", "g/m3", "density", 1e-3),
        new("kg_m4", "kg/m4", "density gradient", 1),
        new("m3_per_kg", "m3/kg", "specific volume", 1),
        new("cm3_per_g", "cm3/g", "specific volume", 1e-3),
        new("px", "px", "pixels", 1),
        new("percent", "%", "ratio", 0.01),
    }.OrderByDescending(unit => unit.Suffix.Length)];

    /// <summary>The unit at the end of a key's name; null where there is none.</summary>
    /// <param name="name">Name of the key.</param>
    public static UnitSuffix? OfKey(string name) =>
        Known.FirstOrDefault(unit => name.EndsWith("_" + unit.Suffix, StringComparison.Ordinal));

    /// <summary>A key's name without its unit.</summary>
    /// <param name="name">Name of the key.</param>
    public static string StemOf(string name) => OfKey(name) is { } unit ? name[..^(unit.Suffix.Length + 1)] : name;

    /// <summary>Converts a value into another unit of the same dimension.</summary>
    /// <param name="value">The value in this unit.</param>
    /// <param name="other">The wanted unit.</param>
    /// <param name="difference">Whether the value is a difference, such as an uncertainty, to which the zero of a scale does not matter.</param>
    /// <returns>The value in the wanted unit; null where the dimensions differ.</returns>
    public double? To(UnitSuffix other, double value, bool difference = false)
    {
        if (Dimension != other.Dimension)
            return null;
        return difference ? Factor * value / other.Factor : (Factor * (value + Offset) / other.Factor) - other.Offset;
    }
}
