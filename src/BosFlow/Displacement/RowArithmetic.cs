using System.Numerics;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Displacement;

/// <summary>Sums along rows of numbers, vector by vector.</summary>
internal static class RowArithmetic
{
    /// <summary>Adds a row to another of the same length.</summary>
    public static void Add(Span<float> target, ReadOnlySpan<float> row)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; i <= target.Length - lanes; i += lanes)
            (new Vector<float>(target[i..]) + new Vector<float>(row[i..])).CopyTo(target[i..]);
        for (; i < target.Length; i++)
            target[i] += row[i];
    }

    /// <summary>Adds a multiple of a row to another of the same length.</summary>
    public static void AddTimes(Span<float> target, ReadOnlySpan<float> row, float factor)
    {
        int lanes = Vector<float>.Count, i = 0;
        Vector<float> wide = new(factor);
        for (; i <= target.Length - lanes; i += lanes)
            (new Vector<float>(target[i..]) + (wide * new Vector<float>(row[i..]))).CopyTo(target[i..]);
        for (; i < target.Length; i++)
            target[i] += factor * row[i];
    }

    /// <summary>Smallest and largest value of a row without NaN; infinities the wrong way round where it is empty.</summary>
    public static (float Least, float Most) Range(ReadOnlySpan<float> row)
    {
        int lanes = Vector<float>.Count, i = 0;
        (float least, float most) = (float.PositiveInfinity, float.NegativeInfinity);
        if (row.Length >= lanes)
        {
            Vector<float> wideLeast = new(row), wideMost = wideLeast;
            for (i = lanes; i <= row.Length - lanes; i += lanes)
            {
                Vector<float> here = new(row[i..]);
                wideLeast = Vector.Min(wideLeast, here);
                wideMost = Vector.Max(wideMost, here);
            }

            for (int lane = 0; lane < lanes; lane++)
                (least, most) = (Math.Min(least, wideLeast[lane]), Math.Max(most, wideMost[lane]));
        }

        for (; i < row.Length; i++)
            (least, most) = (Math.Min(least, row[i]), Math.Max(most, row[i]));
        return (least, most);
    }

    /// <summary>target[i] = one[i] + other[i]; rows of the same length.</summary>
    public static void Sums(ReadOnlySpan<float> one, ReadOnlySpan<float> other, Span<float> target)
    {
        one.CopyTo(target);
        Add(target, other);
    }

    /// <summary>target[i] = (before[i] + 2 here[i] + after[i]) / 4; rows of the same length.</summary>
    public static void Binomial(ReadOnlySpan<float> before, ReadOnlySpan<float> here, ReadOnlySpan<float> after, Span<float> target)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; i <= target.Length - lanes; i += lanes)
            ((0.25f * new Vector<float>(before[i..])) + (0.5f * new Vector<float>(here[i..])) + (0.25f * new Vector<float>(after[i..]))).CopyTo(target[i..]);
        for (; i < target.Length; i++)
            target[i] = (0.25f * before[i]) + (0.5f * here[i]) + (0.25f * after[i]);
    }

    /// <summary>target[i] = above[i] / below[i]; where below is not above 0 another value.</summary>
    public static void Ratios(ReadOnlySpan<float> above, ReadOnlySpan<float> below, float otherwise, Span<float> target)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; i <= target.Length - lanes; i += lanes)
        {
            Vector<float> divisor = new(below[i..]);
            Vector.ConditionalSelect(Vector.GreaterThan(divisor, Vector<float>.Zero), new Vector<float>(above[i..]) / divisor, new Vector<float>(otherwise)).CopyTo(target[i..]);
        }

        for (; i < target.Length; i++)
            target[i] = below[i] > 0 ? above[i] / below[i] : otherwise;
    }

    /// <summary>Whether a number is NaN.</summary>
    public static bool AnyNaN(ReadOnlySpan<float> values)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; i <= values.Length - lanes; i += lanes)
        {
            Vector<float> value = new(values[i..]);
            if (!Vector.EqualsAll(value, value))
                return true;
        }

        for (; i < values.Length; i++)
        {
            if (float.IsNaN(values[i]))
                return true;
        }

        return false;
    }

    /// <summary>target[i * step] = weights[0] row[i] + ... + weights[3] row[i + 3], as far as the target goes.</summary>
    public static void FourTaps(ReadOnlySpan<float> row, ReadOnlySpan<float> weights, Span<float> target, int step)
    {
        (float w0, float w1, float w2, float w3) = (weights[0], weights[1], weights[2], weights[3]);
        int lanes = Vector<float>.Count, i = 0;
        for (; step == 1 && i <= target.Length - lanes; i += lanes)
            ((w0 * new Vector<float>(row[i..])) + (w1 * new Vector<float>(row[(i + 1)..])) + (w2 * new Vector<float>(row[(i + 2)..])) + (w3 * new Vector<float>(row[(i + 3)..]))).CopyTo(target[i..]);
        for (; i * step < target.Length; i++)
            target[i * step] = (w0 * row[i]) + (w1 * row[i + 1]) + (w2 * row[i + 2]) + (w3 * row[i + 3]);
    }

    /// <summary>target[i] = sum of row[i * group] to row[i * group + group - 1].</summary>
    /// <param name="row">Numbers.</param>
    /// <param name="group">4 or 8.</param>
    /// <param name="target">Sums.</param>
    public static void SumGroups(ReadOnlySpan<float> row, int group, Span<float> target)
    {
        int i = 0;
        if (group == 8 && Avx.IsSupported)
        {
            for (; i <= target.Length - 8; i += 8)
                SumEights(row.Slice(8 * i, 64)).CopyTo(target[i..]);
        }

        for (; i < target.Length; i++)
            target[i] = group == 8 ? Vector256.Sum(Vector256.Create(row.Slice(8 * i, 8))) : Vector128.Sum(Vector128.Create(row.Slice(4 * i, 4)));
    }

    // Sums of eight groups of eight: neighbours are added three times over, the halves of the vectors last.
    private static Vector256<float> SumEights(ReadOnlySpan<float> row)
    {
        Vector256<float> first = SumFours(row), last = SumFours(row[32..]);
        return Avx.Permute2x128(first, last, 0x20) + Avx.Permute2x128(first, last, 0x31);
    }

    private static Vector256<float> SumFours(ReadOnlySpan<float> row) => Avx.HorizontalAdd(
        Avx.HorizontalAdd(Vector256.Create(row), Vector256.Create(row[8..])),
        Avx.HorizontalAdd(Vector256.Create(row[16..]), Vector256.Create(row[24..])));

    /// <summary>target[i] = sum of row[i * step] to row[i * step + count - 1].</summary>
    public static void SlidingSums(ReadOnlySpan<float> row, int count, int step, Span<float> target)
    {
        int lanes = Vector<float>.Count, i = 0;
        if (step == 1)
        {
            for (; i <= target.Length - lanes; i += lanes)
            {
                Vector<float> sum = new(row[i..]);
                for (int k = 1; k < count; k++)
                    sum += new Vector<float>(row[(i + k)..]);
                sum.CopyTo(target[i..]);
            }
        }

        for (; i < target.Length; i++)
        {
            float sum = 0;
            for (int k = 0; k < count; k++)
                sum += row[(i * step) + k];
            target[i] = sum;
        }
    }
}
