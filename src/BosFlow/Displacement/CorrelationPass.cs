using System.Numerics;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>One pass of FFT correlation on the deformed frame with the three-point Gaussian fit: the classical refinement.</summary>
/// <remarks>
/// Windows are weighted and padded with zeros to a power of two. The remaining shift is near zero, so circular wrap-round
/// does no harm. Its sigma is that of least-squares matching at the same place: both use the same grey levels.
/// </remarks>
internal sealed class CorrelationPass : IRefinementPass
{
    private readonly ReferenceTexture texture;
    private readonly ReferenceWindows windows;
    private readonly DeformedBand band;
    private readonly WindowCorrelator correlator;
    private readonly float[] reference;
    private readonly float[] moved;
    private readonly CorrelationPeak[] peaks;
    private readonly int[] laneNodes;
    private readonly MatchedWindow[] laneMatches;

    public CorrelationPass(ReferenceTexture texture, ReferenceWindows windows)
    {
        this.texture = texture;
        this.windows = windows;
        band = new DeformedBand(windows.Layout.Size, texture);
        SharedScatter = (float)texture.SharedScatter(1, windows.Layout.Size);
        int lanes = Vector<float>.Count;
        correlator = new WindowCorrelator((int)BitOperations.RoundUpToPowerOf2((uint)windows.Layout.Size), lanes);
        reference = new float[correlator.Size * correlator.Size];
        moved = new float[correlator.Size * correlator.Size];
        peaks = new CorrelationPeak[lanes];
        laneNodes = new int[lanes];
        laneMatches = new MatchedWindow[lanes];
    }

    /// <inheritdoc/>
    public float SharedScatter { get; }

    public void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        int nextRow = 0;
        for (int y = 0; y < texture.Height && nextRow < windows.Layout.Grid.Rows; y++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            band.Advance(y, frame, predictor);
            if (y == windows.Layout.Top(nextRow) + windows.Layout.Size - 1)
                FinishRow(nextRow++, predictor, state);
        }
    }

    private void FinishRow(int row, PredictorField predictor, NodeState state)
    {
        int filled = 0;
        for (int column = 0; column < windows.Layout.Grid.Columns; column++)
        {
            int node = (row * windows.Layout.Grid.Columns) + column;
            if (!state.Begin(node, windows.Flags[node]))
                continue;

            VectorFlags failure = MaskedWindow.Match(texture, windows, band, node, out MatchedWindow match);
            if (failure != VectorFlags.None)
            {
                RefinementResult.Store(state, node, predictor, failure, match);
                continue;
            }

            LoadWindows(node);
            correlator.SetWindows(filled, reference, moved);
            laneMatches[filled] = match;
            laneNodes[filled++] = node;
            if (filled == correlator.Lanes)
                filled = Flush(filled, predictor, state);
        }

        Flush(filled, predictor, state);
    }

    private int Flush(int filled, PredictorField predictor, NodeState state)
    {
        if (filled == 0)
            return 0;
        correlator.Correlate(peaks.AsSpan(0, filled), Math.Min((windows.Layout.Size / 4) + 1, (correlator.Size / 2) - 1));
        for (int lane = 0; lane < filled; lane++)
        {
            CorrelationPeak peak = peaks[lane];
            MatchedWindow match = laneMatches[lane] with { Du = peak.Dx, Dv = peak.Dy, Correlation = peak.Value };
            VectorFlags failure = double.IsNaN(peak.Dx) ? VectorFlags.LowCorrelation : VectorFlags.None;
            RefinementResult.Store(state, laneNodes[lane], predictor, failure, match);
            state.PeakRatio[laneNodes[lane]] = (float)peak.PeakRatio;
        }

        return 0;
    }

    // Mean taken off over the usable pixels before weighting, so that padding and missing pixels are neutral.
    private void LoadWindows(int node)
    {
        WindowLayout layout = windows.Layout;
        int left = layout.Left(node % layout.Grid.Columns), top = layout.Top(node / layout.Grid.Columns);
        Array.Clear(reference);
        Array.Clear(moved);
        double sumReference = 0, sumMoved = 0, weight = 0;
        for (int pass = 0; pass < 2; pass++)
        {
            float meanReference = weight > 0 ? (float)(sumReference / weight) : 0, meanMoved = weight > 0 ? (float)(sumMoved / weight) : 0;
            for (int y = 0; y < layout.Size; y++)
            {
                float[] levels = band.Levels(top + y);
                byte[] missing = band.Missing(top + y);
                int row = (top + y) * texture.Width;
                for (int x = 0; x < layout.Size; x++)
                {
                    if (missing[left + x] != 0 || texture.Usable[row + left + x] == 0)
                        continue;
                    float w = windows.Weights[y] * windows.Weights[x];
                    if (pass == 0)
                    {
                        weight += w;
                        sumReference += w * texture.Level[row + left + x];
                        sumMoved += w * levels[left + x];
                        continue;
                    }

                    reference[(y * correlator.Size) + x] = w * (texture.Level[row + left + x] - meanReference);
                    moved[(y * correlator.Size) + x] = w * (levels[left + x] - meanMoved);
                }
            }
        }
    }
}
