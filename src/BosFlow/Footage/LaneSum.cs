using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>A sum in eight lanes, each of double precision: one order of additions on every kind of processor.</summary>
internal struct LaneSum
{
    private Vector256<double> lower;
    private Vector256<double> upper;

    /// <summary>The sum; lanes are added in their order.</summary>
    public readonly double Total
    {
        get
        {
            double total = 0;
            for (int lane = 0; lane < Vector256<double>.Count; lane++)
                total += lower[lane];
            for (int lane = 0; lane < Vector256<double>.Count; lane++)
                total += upper[lane];
            return total;
        }
    }

    /// <summary>Adds eight values.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Add(Vector256<float> values)
    {
        Vector256<double> low = Vector256.WidenLower(values);
        Vector256<double> high = Vector256.WidenUpper(values);
        lower += low;
        upper += high;
    }

    /// <summary>Adds the squares of eight values less another.</summary>
    /// <param name="values">The values.</param>
    /// <param name="less">What is taken off each.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void AddSquares(Vector256<float> values, double less)
    {
        Vector256<double> low = Vector256.WidenLower(values);
        Vector256<double> high = Vector256.WidenUpper(values);
        low -= Vector256.Create(less);
        high -= Vector256.Create(less);
        lower += low * low;
        upper += high * high;
    }

    /// <summary>Adds the squares of those of eight values that count, less another.</summary>
    /// <param name="values">The values.</param>
    /// <param name="less">What is taken off each.</param>
    /// <param name="counting">Which of them count, a bit each.</param>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public void AddSquares(Vector256<float> values, double less, byte counting)
    {
        for (int lane = 0; lane < Vector256<float>.Count; lane++)
        {
            if ((counting & (1 << lane)) == 0)
                continue;
            double value = values[lane] - less;
            int half = lane % Vector256<double>.Count;
            if (lane < Vector256<double>.Count)
                lower = lower.WithElement(half, lower[half] + (value * value));
            else
                upper = upper.WithElement(half, upper[half] + (value * value));
        }
    }
}
