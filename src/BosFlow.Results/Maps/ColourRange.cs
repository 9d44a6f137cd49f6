using System.Globalization;

namespace BosFlow.Results.Maps;

/// <summary>Which numbers the ends of a colour map stand for, and how they were chosen.</summary>
/// <param name="Low">Number at the low end.</param>
/// <param name="High">Number at the high end, greater than <paramref name="Low"/>.</param>
/// <param name="Statement">How the range was chosen, in words, for the picture.</param>
public sealed record ColourRange(double Low, double High, string Statement)
{
    // A narrow jet covers a few per cent of the picture: percentiles closer to the middle would cut its core.
    private const double HighShare = 0.998;
    private const string NothingKnown = "no value is known";

    /// <summary>Range by percentiles, so that a few wild values do not pale the rest.</summary>
    /// <param name="values">The numbers; NaN are left out.</param>
    /// <param name="signed">true: symmetric about zero, up to the larger magnitude of the percentiles 0.2 and 99.8; false: from zero to the percentile 99.8. Both rounded up to two digits.</param>
    public static ColourRange Automatic(ReadOnlySpan<float> values, bool signed)
    {
        List<float> known = Sorted(values);
        if (known.Count == 0)
            return new ColourRange(signed ? -1 : 0, 1, NothingKnown);
        double high = Percentile(known, HighShare);
        if (signed)
            high = Math.Max(Math.Abs(Percentile(known, 1 - HighShare)), Math.Abs(high));
        if (high <= 0)
            return new ColourRange(signed ? -1 : 0, 1, "every value is zero");
        high = RoundedUp(high);
        double low = signed ? -high : 0;
        string rule = signed ? "symmetric, percentiles 0.2 to 99.8" : "zero to the percentile 99.8";
        return new ColourRange(low, high, $"{rule}, rounded up; {Beyond(known, low, high)} % of the values lie beyond and take the end colours");
    }

    /// <summary>Range between the percentiles 0.2 and 99.8, wherever zero is: for quantities that vary about a large value, such as a density. Rounded outwards to a twentieth of its span or finer.</summary>
    /// <param name="values">The numbers; NaN are left out.</param>
    public static ColourRange Between(ReadOnlySpan<float> values)
    {
        List<float> known = Sorted(values);
        if (known.Count == 0)
            return new ColourRange(0, 1, NothingKnown);
        double low = Percentile(known, 1 - HighShare);
        double high = Percentile(known, HighShare);
        // Float32 has seven digits: a span below that is none.
        double least = Math.Max(Math.Abs(low), Math.Abs(high)) * 1e-6;
        if (high - low <= least)
        {
            double room = Math.Max(Math.Abs(high) * 0.01, 1e-6);
            return new ColourRange(low - room, high + room, "every value is the same");
        }

        double unit = Ticks.Step((high - low) / 50);
        low = Math.Floor((low / unit) + 1e-6) * unit;
        high = Math.Ceiling((high / unit) - 1e-6) * unit;
        return new ColourRange(low, high, $"percentiles 0.2 to 99.8, rounded outwards; {Beyond(known, low, high)} % of the values lie beyond and take the end colours");
    }

    /// <summary>Where a number lies in the range: 0 = low end, 1 = high end.</summary>
    /// <param name="value">The number.</param>
    public double Position(double value) => (value - Low) / (High - Low);

    private static List<float> Sorted(ReadOnlySpan<float> values)
    {
        List<float> known = [];
        foreach (float value in values)
        {
            if (float.IsFinite(value))
                known.Add(value);
        }

        known.Sort();
        return known;
    }

    private static string Beyond(List<float> known, double low, double high) =>
        (100.0 * known.Count(v => v < low || v > high) / known.Count).ToString("0.0", CultureInfo.InvariantCulture);

    private static double Percentile(List<float> sorted, double share)
    {
        double at = share * (sorted.Count - 1);
        int below = (int)at;
        double part = at - below;
        return below + 1 < sorted.Count ? (sorted[below] * (1 - part)) + (sorted[below + 1] * part) : sorted[below];
    }

    private static double RoundedUp(double value)
    {
        double unit = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        // The small allowance keeps 2.4 from becoming 2.5 by the last bit of a product.
        return Math.Ceiling((value / unit) - 1e-6) * unit;
    }
}
