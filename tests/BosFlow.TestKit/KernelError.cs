namespace BosFlow.TestKit;

/// <summary>
/// How far a fast kernel is from its plain double-precision reference. A sum of products may cancel to near zero, where
/// a plain relative error says nothing; the scale is therefore the sum of the absolute products, to which rounding is
/// proportional (Higham, Accuracy and Stability of Numerical Algorithms, 2nd ed. 2002, section 3.1; cited from memory).
/// </summary>
public static class KernelError
{
    /// <summary>Error of one sum of products, relative to the sum of the absolute products.</summary>
    /// <param name="actual">What the kernel gave.</param>
    /// <param name="left">First factors.</param>
    /// <param name="right">Second factors, same length.</param>
    /// <returns>|actual - sum(left * right)| / sum(|left * right|); 0 where both are zero; infinity where <paramref name="actual"/> is not finite.</returns>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static double OfDot(double actual, ReadOnlySpan<float> left, ReadOnlySpan<float> right)
    {
        if (left.Length != right.Length)
            throw new ArgumentException($"{left.Length} and {right.Length} factors.", nameof(right));
        double sum = 0;
        double scale = 0;
        for (int i = 0; i < left.Length; i++)
        {
            double product = (double)left[i] * right[i];
            sum += product;
            scale += Math.Abs(product);
        }

        return Scaled(actual, sum, scale);
    }

    /// <summary>Error relative to a given scale.</summary>
    /// <param name="actual">What the kernel gave.</param>
    /// <param name="expected">What the reference gave.</param>
    /// <param name="scale">Magnitude that rounding is proportional to, not negative.</param>
    /// <returns>|actual - expected| / scale; 0 where they are equal; infinity where only one is finite, or the scale is 0 and they differ.</returns>
    public static double Scaled(double actual, double expected, double scale)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(scale);
        if (actual.Equals(expected) || actual == expected)
            return 0;
        double error = Math.Abs(actual - expected) / scale;
        return double.IsNaN(error) ? double.PositiveInfinity : error;
    }

    /// <summary>Worst difference between two arrays, relative to the largest magnitude of the expected one.</summary>
    /// <param name="actual">What the kernel gave.</param>
    /// <param name="expected">What the reference gave, same length; NaN must meet NaN.</param>
    /// <returns>The worst relative difference; infinity where NaN meets a number.</returns>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static double Worst(ReadOnlySpan<float> actual, ReadOnlySpan<double> expected)
    {
        if (actual.Length != expected.Length)
            throw new ArgumentException($"{actual.Length} values for {expected.Length} expected.", nameof(actual));
        double scale = 0;
        foreach (double value in expected)
            scale = Math.Max(scale, double.IsNaN(value) ? 0 : Math.Abs(value));
        double worst = 0;
        for (int i = 0; i < actual.Length; i++)
            worst = Math.Max(worst, Scaled(actual[i], expected[i], scale));
        return worst;
    }
}
