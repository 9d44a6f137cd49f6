using System.Buffers;

namespace BosFlow.Registration;

/// <summary>Standard deviation of one component of two-component residuals, by their median.</summary>
internal static class RobustScale
{
    public const double InlierLimit = 4;
    private const double RayleighMedianSquare = 1.3862943611198906; // 2 ln 2
    private const double Smallest = 1e-12; // below any rounding of the vectors

    /// <summary>Consistent standard deviation from the median square of the residuals within the inlier limit of the scale before.</summary>
    /// <param name="squares">Squared lengths of the residuals.</param>
    /// <param name="before">Scale of the round before; infinity at first.</param>
    /// <param name="lostVectors">Vectors that the fitted unknowns take up.</param>
    public static double Of(ReadOnlySpan<double> squares, double before, double lostVectors)
    {
        double limit = InlierLimit * InlierLimit * before * before;
        double[] kept = ArrayPool<double>.Shared.Rent(squares.Length);
        int count = 0;
        foreach (double square in squares)
        {
            kept[count] = square;
            // No branch that the processor would guess wrong.
            count += square <= limit ? 1 : 0;
        }

        double median = MotionConsensus.Median(kept.AsSpan(0, count));
        ArrayPool<double>.Shared.Return(kept);
        double freedom = Math.Max(1, count - lostVectors);
        double scale = Math.Sqrt(median / RayleighMedianSquare * count / freedom);
        return double.IsFinite(scale) ? Math.Max(scale, Smallest) : Math.Max(before, Smallest);
    }
}
