using System.Numerics;

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
