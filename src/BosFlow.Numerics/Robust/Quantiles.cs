using System.Numerics;

namespace BosFlow.Numerics.Robust;

/// <summary>Medians and other order statistics. NaN must be left out by the caller.</summary>
public static class Quantiles
{
    /// <summary>Median of the squares of normal values over their variance (handbook value of chi-square with one degree of freedom).</summary>
    public const double MedianOfNormalSquares = 0.4549;

    /// <summary>Median; the two middle values are averaged where the count is even.</summary>
    /// <typeparam name="T">Type of the values.</typeparam>
    /// <param name="values">Values without NaN; reordered.</param>
    /// <returns>The median; NaN for an empty span.</returns>
    public static T Median<T>(Span<T> values)
        where T : struct, IFloatingPointIeee754<T>
    {
        if (values.IsEmpty)
            return T.NaN;
        int half = values.Length / 2;
        T upper = Selection.At(values, half);
        if (values.Length % 2 == 1)
            return upper;
        T lower = values[0];
        foreach (T value in values[1..half])
            lower = T.Max(lower, value);
        return (lower + upper) / T.CreateChecked(2);
    }

    /// <summary>Value below which a share of the values lies, linear between neighbours.</summary>
    /// <param name="values">Values without NaN; reordered.</param>
    /// <param name="share">0 to 1.</param>
    /// <returns>The quantile; NaN for an empty span.</returns>
    public static float Quantile(Span<float> values, double share)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(share);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(share, 1);
        if (values.IsEmpty)
            return float.NaN;
        values.Sort();
        double position = share * (values.Length - 1);
        int below = (int)position;
        int above = Math.Min(below + 1, values.Length - 1);
        return (float)(values[below] + ((position - below) * (values[above] - (double)values[below])));
    }
}
