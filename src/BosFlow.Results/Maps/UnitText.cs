using System.Text;

namespace BosFlow.Results.Maps;

/// <summary>Units as people read them.</summary>
internal static class UnitText
{
    private const string Superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";

    /// <summary>"kg m-3" becomes "kg m⁻³"; "1" becomes the empty text.</summary>
    public static string Readable(string unit)
    {
        if (unit == "1")
            return string.Empty;
        var text = new StringBuilder();
        foreach (char c in unit)
            text.Append(c == '-' ? '⁻' : char.IsAsciiDigit(c) ? Superscripts[c - '0'] : c);
        return text.ToString();
    }

    /// <summary>The power of ten, a multiple of three, that numbers up to a magnitude are best written in; 0 where none is needed.</summary>
    public static int Exponent(double largest) =>
        largest is >= 0.01 and < 10000 || largest <= 0 ? 0 : 3 * (int)Math.Floor(Math.Log10(largest) / 3);

    /// <summary>A unit with its power of ten: "10⁻⁶ rad".</summary>
    public static string WithExponent(string unit, int exponent)
    {
        string readable = Readable(unit);
        if (exponent == 0)
            return readable;
        string power = "10" + string.Concat(exponent.ToString(System.Globalization.CultureInfo.InvariantCulture).Select(c => c == '-' ? '⁻' : Superscripts[c - '0']));
        return readable.Length == 0 ? power : $"{power} {readable}";
    }
}
