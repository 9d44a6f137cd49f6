using System.Globalization;
using BosFlow.Pipeline;

namespace BosFlow.Results.Report;

/// <summary>Numbers as people read them.</summary>
internal static class Figures
{
    /// <summary>A number with at most three significant digits; a power of ten for very small and very large ones.</summary>
    public static string Text(double value)
    {
        if (double.IsNaN(value))
            return "not known";
        if (value == 0)
            return "0";
        int exponent = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        if (exponent is < -4 or > 5)
        {
            string mantissa = (value / Math.Pow(10, exponent)).ToString("0.##", CultureInfo.InvariantCulture);
            return $"{mantissa} × 10{Superscript(exponent)}".Replace('-', '\u2212');
        }

        int decimals = Math.Clamp(2 - exponent, 0, 6);
        return value.ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture).Replace('-', '\u2212');
    }

    /// <summary>A number and its standard uncertainty, both to the second digit of the uncertainty, with their unit: "0.412 ± 0.021 kg m⁻³".</summary>
    public static string WithSigma(double value, double sigma, string unit)
    {
        if (!double.IsFinite(value))
            return "not known";
        if (!(sigma > 0) || !double.IsFinite(sigma))
            return $"{Text(value)} {unit} (uncertainty not known)".Replace("  ", " ", StringComparison.Ordinal);
        int exponent = (int)Math.Floor(Math.Log10(Math.Max(Math.Abs(value), sigma)));
        int power = exponent is < -3 or > 5 ? exponent : 0;
        double factor = Math.Pow(10, -power);
        int decimals = Math.Clamp(1 - (int)Math.Floor(Math.Log10(sigma * factor)), 0, 9);
        string format = "F" + decimals.ToString(CultureInfo.InvariantCulture);
        string numbers = $"{(value * factor).ToString(format, CultureInfo.InvariantCulture)} ± {(sigma * factor).ToString(format, CultureInfo.InvariantCulture)}".Replace('-', '\u2212');
        return power == 0 ? $"{numbers} {unit}" : $"({numbers}) × 10{Superscript(power)} {unit}";
    }

    /// <summary>A setting exactly as it is, without digits made up by binary fractions.</summary>
    public static string Exact(double value) => value.ToString("0.##########", CultureInfo.InvariantCulture).Replace('-', '\u2212');

    /// <summary>A physical constant with five significant digits.</summary>
    public static string Constant(double value)
    {
        int exponent = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return $"{(value / Math.Pow(10, exponent)).ToString("0.####", CultureInfo.InvariantCulture)} × 10{Superscript(exponent)}".Replace('-', '\u2212');
    }

    public static string Count(int number, string one, string many) => number == 1 ? $"1 {one}" : string.Create(CultureInfo.InvariantCulture, $"{number} {many}");

    /// <summary>A length with spaces between groups of three digits.</summary>
    public static string Count(long number) => number.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u202f');

    /// <summary>Frame numbers, runs of neighbours joined: "3, 7 to 12, 40"; cut with the number of the rest.</summary>
    public static string Ranges(IReadOnlyList<int> sorted, int mostRanges)
    {
        string[] ranges = [.. FrameNumbers.Ranges(sorted).Select(range => (range.Last - range.First) switch
        {
            0 => $"{range.First}",
            1 => $"{range.First}, {range.Last}",
            _ => $"{range.First} to {range.Last}",
        })];
        string text = string.Join(", ", ranges.Take(mostRanges));
        return ranges.Length > mostRanges ? $"{text} and more (all in frames.csv)" : text;
    }

    private static string Superscript(int exponent) =>
        string.Concat(exponent.ToString(CultureInfo.InvariantCulture).Select(c => c == '-' ? '⁻' : "⁰¹²³⁴⁵⁶⁷⁸⁹"[c - '0']));
}
