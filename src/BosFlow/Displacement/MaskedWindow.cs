using BosFlow.Footage;
using BosFlow.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>Matching of a window in which the frame misses pixels: every sum is formed anew over the pixels that both pictures have.</summary>
internal static class MaskedWindow
{
    /// <summary>Matches one window; the plain double loop is also the reference that the fast path is tested against.</summary>
    /// <returns><see cref="VectorFlags.None"/> where matched, else why not.</returns>
    public static VectorFlags Match(ReferenceTexture texture, ReferenceWindows windows, DeformedBand band, int node, out MatchedWindow match)
    {
        WindowLayout layout = windows.Layout;
        int left = layout.Left(node % layout.Grid.Columns), top = layout.Top(node / layout.Grid.Columns);
        Span<double> matrix = stackalloc double[SymmetricInverse4.PackedLength];
        Span<double> sums = stackalloc double[LeastSquaresMatch.Terms];
        Span<double> causes = stackalloc double[DeformedBand.OutsideFrame + 1];
        matrix.Clear();
        sums.Clear();
        causes.Clear();
        double squaredWeight = 0;
        for (int y = top; y < top + layout.Size; y++)
        {
            float[] levels = band.Levels(y);
            byte[] missing = band.Missing(y);
            for (int x = left; x < left + layout.Size; x++)
            {
                int i = (y * texture.Width) + x;
                causes[missing[x]]++;
                if (missing[x] != 0 || texture.Usable[i] == 0)
                    continue;
                double w = (double)windows.Weights[y - top] * windows.Weights[x - left];
                double gx = texture.GradientX[i], gy = texture.GradientY[i], a = texture.Level[i], g = levels[x];
                squaredWeight += w * w;
                matrix[0] += w * gx * gx;
                matrix[1] += w * gy * gx;
                matrix[2] += w * gy * gy;
                matrix[3] += w * a * gx;
                matrix[4] += w * a * gy;
                matrix[5] += w * a * a;
                matrix[6] += w * gx;
                matrix[7] += w * gy;
                matrix[8] += w * a;
                matrix[9] += w;
                sums[0] += w * g * gx;
                sums[1] += w * g * gy;
                sums[2] += w * g * a;
                sums[3] += w * g;
                sums[4] += w * g * g;
            }
        }

        match = default;
        double weight = matrix[9];
        if (weight < ReferenceWindows.LeastUsableShare * windows.FullWeight)
            return Prevailing(causes);
        Span<double> inverse = stackalloc double[SymmetricInverse4.PackedLength];
        if (!SymmetricInverse4.TryInvert(matrix, inverse))
            return VectorFlags.LowTexture;
        return LeastSquaresMatch.TrySolve(inverse, sums, weight, squaredWeight / weight, out match) ? VectorFlags.None : VectorFlags.LowCorrelation;
    }

    /// <summary>What most of the missing pixels miss.</summary>
    /// <param name="causes">Number of pixels by code.</param>
    public static VectorFlags Prevailing(ReadOnlySpan<double> causes)
    {
        if (causes[DeformedBand.OutsideFrame] >= causes[PixelDefects.Glare] && causes[DeformedBand.OutsideFrame] >= causes[PixelDefects.NotRecorded])
            return VectorFlags.OutOfFrame;
        return causes[PixelDefects.Glare] >= causes[PixelDefects.NotRecorded] ? VectorFlags.Saturated : VectorFlags.Masked;
    }
}
