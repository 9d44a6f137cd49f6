using System.Numerics;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>First pass: FFT correlation of large windows, moved by whole pixels of the background's motion.</summary>
internal sealed class CoarsePass
{
    // Below these a coarse peak is chance rather than texture (common practice, no source).
    private const double LowestCorrelation = 0.2;
    private const double LowestPeakRatio = 1.1;

    // Coarse vectors scatter more than final ones: noise level of the outlier test, px.
    private const double OutlierNoise = 0.5;
    private const double OutlierThreshold = 2;

    private readonly WindowLayout layout;
    private readonly WindowCorrelator correlator;
    private readonly CorrelationPeak[] peaks;
    private readonly (int Node, int ShiftX, int ShiftY)[] lanes;
    private readonly CoarseWindows windows;

    public CoarsePass(ReferenceTexture texture, int size)
    {
        while (size > Math.Min(texture.Width, texture.Height))
            size /= 2;
        layout = WindowLayout.Fill(texture.Width, texture.Height, size, size / 2);
        correlator = new WindowCorrelator(size, Vector<float>.Count);
        peaks = new CorrelationPeak[correlator.Lanes];
        lanes = new (int, int, int)[correlator.Lanes];
        windows = new CoarseWindows(texture, layout);
        State = new NodeState(layout.Grid);
    }

    /// <summary>Complete displacement beyond the motion at the coarse nodes after <see cref="Run"/>, without NaN.</summary>
    public NodeState State { get; }

    public void Run(PreparedFrame frame, CancellationToken cancellationToken)
    {
        int filled = 0;
        for (int node = 0; node < State.Grid.Count; node++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            State.Flags[node] = VectorFlags.None;
            State.PeakRatio[node] = float.NaN;
            int shiftX = (int)MathF.Round(State.MotionU[node]), shiftY = (int)MathF.Round(State.MotionV[node]);
            if (!windows.LoadReference(node) || !windows.LoadMoved(node, shiftX, shiftY, frame))
            {
                State.Drop(node, VectorFlags.Masked);
                continue;
            }

            correlator.SetWindows(filled, windows.Reference, windows.Moved);
            lanes[filled++] = (node, shiftX, shiftY);
            if (filled == correlator.Lanes)
                filled = Flush(filled);
        }

        Flush(filled);
        OutlierReplacement.ForSteering(State, OutlierThreshold, OutlierNoise);
        PredictorUpdate.Fill(State.Grid, State.U);
        PredictorUpdate.Fill(State.Grid, State.V);
    }

    private int Flush(int filled)
    {
        if (filled == 0)
            return 0;
        correlator.Correlate(peaks.AsSpan(0, filled), layout.Size / 4);
        for (int lane = 0; lane < filled; lane++)
        {
            (int node, int shiftX, int shiftY) = lanes[lane];
            CorrelationPeak peak = peaks[lane];
            State.PeakRatio[node] = (float)peak.PeakRatio;
            if (!(peak.Value > LowestCorrelation) || !(peak.PeakRatio > LowestPeakRatio))
            {
                State.Drop(node, VectorFlags.LowCorrelation);
                continue;
            }

            State.U[node] = (float)(shiftX + peak.Dx) - State.MotionU[node];
            State.V[node] = (float)(shiftY + peak.Dy) - State.MotionV[node];
        }

        return 0;
    }
}
