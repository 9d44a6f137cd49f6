using BosFlow.Numerics.Interpolation;
using BosFlow.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>Matching of a window some of whose blocks miss pixels in the frame: its normal matrix is summed anew from what is left of them.</summary>
internal sealed class PartialWindow(ReferenceWindows windows, BlockReference reference, BlockSums sums)
{
    private readonly BlockLayout layout = reference.Layout;

    /// <summary>Whether any of some neighbouring windows misses pixels.</summary>
    /// <param name="column">Column of nodes of the first.</param>
    /// <param name="count">Windows.</param>
    /// <param name="incomplete">What <see cref="BlockSums.FindIncomplete"/> found.</param>
    public bool AnyPartial(int column, int count, ReadOnlySpan<byte> incomplete) =>
        incomplete.Slice(column * layout.PerStep, ((count - 1) * layout.PerStep) + layout.PerWindow).ContainsAnyExcept((byte)0);

    /// <summary>Matches one window.</summary>
    /// <param name="row">Row of nodes.</param>
    /// <param name="column">Column of nodes.</param>
    /// <param name="windowSums">Sums of <see cref="TileProducts"/> of the row: [term * columns + column].</param>
    /// <param name="match">The result.</param>
    /// <returns><see cref="VectorFlags.None"/> where matched, else why not.</returns>
    public VectorFlags Match(int row, int column, ReadOnlySpan<float> windowSums, out MatchedWindow match)
    {
        Span<double> matrix = stackalloc double[SymmetricInverse4.PackedLength];
        Span<double> causes = stackalloc double[BlockSums.Causes];
        for (int y = row * layout.PerStep; y < (row * layout.PerStep) + layout.PerWindow; y++)
        {
            for (int x = column * layout.PerStep; x < (column * layout.PerStep) + layout.PerWindow; x++)
                AddBlock(y, x, matrix, causes);
        }

        match = default;
        if (matrix[9] < ReferenceWindows.LeastUsableShare * windows.FullWeight)
            return MaskedWindow.Prevailing(causes);
        Span<double> inverse = stackalloc double[SymmetricInverse4.PackedLength];
        if (!SymmetricInverse4.TryInvert(matrix, inverse))
            return VectorFlags.LowTexture;
        Span<double> e = stackalloc double[TileProducts.Terms];
        for (int term = 0; term < e.Length; term++)
            e[term] = windowSums[(term * windows.Layout.Grid.Columns) + column];
        return LeastSquaresMatch.TrySolveDifference(inverse, e, matrix[5], matrix[8], matrix[9], out match) ? VectorFlags.None : VectorFlags.LowCorrelation;
    }

    private void AddBlock(int y, int x, Span<double> matrix, Span<double> causes)
    {
        bool incomplete = sums.Incomplete(y)[x] != 0;
        ReadOnlySpan<float> remainder = incomplete ? sums.Remainder(y, x) : default;
        ReadOnlySpan<float> statics = reference.Statics(y);
        for (int term = 0; term < matrix.Length; term++)
            matrix[term] += incomplete ? remainder[term] : statics[(term * layout.Columns) + x];
        for (int cause = 0; incomplete && cause < causes.Length; cause++)
            causes[cause] += remainder[matrix.Length + cause];
    }
}
