using System.Globalization;

namespace BosFlow.Results.Maps;

/// <summary>Round numbers along an axis: steps of 1, 2 or 5 times a power of ten.</summary>
internal sealed class Ticks
{
    private readonly int decimals;

    private Ticks(IReadOnlyList<double> values, int decimals)
    {
        Values = values;
        this.decimals = decimals;
    }

    public IReadOnlyList<double> Values { get; }

    /// <param name="low">Low end of the axis.</param>
    /// <param name="high">High end, greater.</param>
    /// <param name="most">Most ticks wanted, at least 2.</param>
    public static Ticks Between(double low, double high, int most)
    {
        double step = Step((high - low) / (most + 1));
        while (Math.Floor((high / step) + 1e-9) - Math.Ceiling((low / step) - 1e-9) + 1 > most)
            step = Step(step * 1.5);
        int decimals = Math.Max(0, -(int)Math.Floor(Math.Log10(step) + 1e-9));
        long first = (long)Math.Ceiling((low / step) - 1e-9);
        long last = (long)Math.Floor((high / step) + 1e-9);
        List<double> values = [];
        for (long i = first; i <= last; i++)
            values.Add(i * step);
        return new Ticks(values, decimals);
    }

    /// <summary>The smallest of 1, 2, 5 times a power of ten that is not below a number.</summary>
    public static double Step(double atLeast)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(atLeast)));
        double mantissa = atLeast / power;
        return power * (mantissa <= 1 + 1e-9 ? 1 : mantissa <= 2 + 1e-9 ? 2 : mantissa <= 5 + 1e-9 ? 5 : 10);
    }

    public string Label(double value)
    {
        string text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        // A typographic minus; and no minus before a zero.
        return text.TrimStart('-').All(c => c is '0' or '.') ? text.TrimStart('-') : text.Replace('-', '\u2212');
    }
}
