using System.Numerics;
using System.Runtime.InteropServices;

namespace BosFlow.Displacement;

/// <summary>One pass of least-squares matching over all windows: the whole frame is deformed once, products are summed window by window.</summary>
internal sealed class LeastSquaresPass : IRefinementPass
{
    private readonly ReferenceTexture texture;
    private readonly ReferenceWindows windows;
    private readonly DeformedBand band;
    private readonly WindowSums sums;
    private readonly float[][] products;
    private readonly double squaredWeightRatio;

    public LeastSquaresPass(ReferenceTexture texture, ReferenceWindows windows)
    {
        this.texture = texture;
        this.windows = windows;
        band = new DeformedBand(windows.Layout.Size, texture);
        SharedScatter = (float)texture.SharedScatter(1, windows.Layout.Size);
        sums = new WindowSums(windows.Layout, windows.Weights, texture.Width, LeastSquaresMatch.Terms);
        products = new float[LeastSquaresMatch.Terms][];
        for (int k = 0; k < products.Length; k++)
            products[k] = new float[texture.Width];
        double sum = windows.Weights.Sum(w => (double)w), squares = windows.Weights.Sum(w => (double)w * w);
        squaredWeightRatio = squares / sum * (squares / sum);
    }

    /// <inheritdoc/>
    public float SharedScatter { get; }

    public void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        for (int y = 0; y < texture.Height; y++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            band.Advance(y, frame, predictor);
            Multiply(y);
            int row = sums.Add(y, products);
            if (row >= 0)
                FinishRow(row, predictor, state);
        }
    }

    private void FinishRow(int row, PredictorField predictor, NodeState state)
    {
        int columns = windows.Layout.Grid.Columns;
        bool anyMissing = band.AnyMissing(windows.Layout.Top(row));
        for (int column = 0; column < columns; column++)
        {
            int node = (row * columns) + column;
            if (!state.Begin(node, windows.Flags[node]))
                continue;

            VectorFlags failure = Match(node, column, anyMissing, out MatchedWindow match);
            RefinementResult.Store(state, node, predictor, failure, match);
        }
    }

    private VectorFlags Match(int node, int column, bool anyMissing, out MatchedWindow match)
    {
        if (anyMissing && Misses(node))
            return MaskedWindow.Match(texture, windows, band, node, out match);
        bool solved = LeastSquaresMatch.TrySolve(
            windows.InverseAt(node), sums.Totals.AsSpan(column * LeastSquaresMatch.Terms, LeastSquaresMatch.Terms),
            windows.Weight[node], squaredWeightRatio, out match);
        return solved ? VectorFlags.None : VectorFlags.LowCorrelation;
    }

    private bool Misses(int node)
    {
        WindowLayout layout = windows.Layout;
        int left = layout.Left(node % layout.Grid.Columns), top = layout.Top(node / layout.Grid.Columns);
        for (int y = top; y < top + layout.Size; y++)
        {
            if (band.Missing(y).AsSpan(left, layout.Size).ContainsAnyExcept((byte)0))
                return true;
        }

        return false;
    }

    private void Multiply(int y)
    {
        int row = y * texture.Width;
        ReadOnlySpan<float> g = band.Levels(y);
        ReadOnlySpan<float> gx = texture.GradientX.AsSpan(row, texture.Width), gy = texture.GradientY.AsSpan(row, texture.Width);
        ReadOnlySpan<float> a = texture.Level.AsSpan(row, texture.Width), usable = texture.Usable.AsSpan(row, texture.Width);
        ReadOnlySpan<Vector<float>> wideG = MemoryMarshal.Cast<float, Vector<float>>(g);
        ReadOnlySpan<Vector<float>> wideX = MemoryMarshal.Cast<float, Vector<float>>(gx);
        ReadOnlySpan<Vector<float>> wideY = MemoryMarshal.Cast<float, Vector<float>>(gy);
        ReadOnlySpan<Vector<float>> wideA = MemoryMarshal.Cast<float, Vector<float>>(a);
        ReadOnlySpan<Vector<float>> wideUsable = MemoryMarshal.Cast<float, Vector<float>>(usable);
        Span<Vector<float>> p0 = MemoryMarshal.Cast<float, Vector<float>>(products[0].AsSpan());
        Span<Vector<float>> p1 = MemoryMarshal.Cast<float, Vector<float>>(products[1].AsSpan());
        Span<Vector<float>> p2 = MemoryMarshal.Cast<float, Vector<float>>(products[2].AsSpan());
        Span<Vector<float>> p3 = MemoryMarshal.Cast<float, Vector<float>>(products[3].AsSpan());
        Span<Vector<float>> p4 = MemoryMarshal.Cast<float, Vector<float>>(products[4].AsSpan());
        for (int i = 0; i < wideG.Length; i++)
        {
            Vector<float> level = wideG[i];
            Vector<float> kept = level * wideUsable[i];
            p0[i] = level * wideX[i];
            p1[i] = level * wideY[i];
            p2[i] = level * wideA[i];
            p3[i] = kept;
            p4[i] = kept * level;
        }

        for (int x = wideG.Length * Vector<float>.Count; x < g.Length; x++)
        {
            float kept = g[x] * usable[x];
            products[0][x] = g[x] * gx[x];
            products[1][x] = g[x] * gy[x];
            products[2][x] = g[x] * a[x];
            products[3][x] = kept;
            products[4][x] = kept * g[x];
        }
    }
}
