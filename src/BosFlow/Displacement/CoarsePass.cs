using System.Collections.Concurrent;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>
/// First pass: FFT correlation of large windows, moved by whole pixels of the background's motion. Windows are correlated at half resolution first; one that does not match
/// at full resolution where the peak says so, or misses pixels, is correlated at full resolution: fine dots may have no contrast left at half of it.
/// </summary>
internal sealed class CoarsePass(ReferenceTexture texture, CoarseReference reference)
{
    // Below these a coarse peak is chance rather than texture (common practice, no source).
    private const double LowestCorrelation = 0.2;
    private const double LowestPeakRatio = 1.1;

    // Coarse vectors scatter more than final ones: noise level of the outlier test, px.
    private const double OutlierNoise = 0.5;
    private const double OutlierThreshold = 2;

    private const int BatchesPerPart = 4;
    private const int NodesPerPart = 256;

    private readonly WindowLayout layout = reference.Layout;
    private readonly bool[] found = new bool[reference.Layout.Grid.Count];
    private readonly OutlierTest outliers = new(reference.Layout.Grid);
    private readonly ConcurrentBag<CoarseWorkspace> idle = [];

    /// <summary>Complete displacement beyond the motion at the coarse nodes after <see cref="Run"/>, without NaN.</summary>
    public NodeState State { get; } = new(reference.Layout.Grid);

    public void Run(PreparedFrame frame, FrameThreads threads, CancellationToken cancellationToken)
    {
        Array.Clear(found);
        int batches = reference.Spectra?.Batches ?? 0;
        threads.Run((batches + BatchesPerPart - 1) / BatchesPerPart, part => CorrelateHalved(part, frame), cancellationToken);
        threads.Run((found.Length + NodesPerPart - 1) / NodesPerPart, part => CorrelateRest(part, frame), cancellationToken);
        outliers.ForSteering(State, OutlierThreshold, OutlierNoise, threads, cancellationToken);
        PredictorUpdate.Fill(State.Grid, State.U);
        PredictorUpdate.Fill(State.Grid, State.V);
    }

    private CoarseWorkspace Take() => idle.TryTake(out CoarseWorkspace? workspace) ? workspace : new CoarseWorkspace(texture, reference);

    private void CorrelateHalved(int part, PreparedFrame frame)
    {
        CoarseWorkspace work = Take();
        ReferenceSpectra spectra = reference.Spectra!;
        for (int batch = part * BatchesPerPart; batch < Math.Min((part + 1) * BatchesPerPart, spectra.Batches); batch++)
        {
            int first = batch * spectra.WindowsPerBatch;
            ReadOnlySpan<int> nodes = reference.Halved.AsSpan(first, Math.Min(spectra.WindowsPerBatch, reference.Halved.Length - first));
            Span<int> corners = work.Corners.AsSpan(0, nodes.Length);
            for (int i = 0; i < nodes.Length; i++)
            {
                (int shiftX, int shiftY) = HalfShift(nodes[i]);
                bool whole = IsWhole(nodes[i], 2 * shiftX, 2 * shiftY, frame);
                corners[i] = whole ? reference.HalfCorner(nodes[i], shiftX, shiftY) : -1;
            }

            // A window that is not whole takes any place: its result is not used.
            corners.Replace(-1, 0);
            spectra.Correlate(batch, frame.Half.Span, frame.Width / 2, corners, spectra.Size / 4, work.Spectral!, work.Peaks);
            for (int i = 0; i < nodes.Length; i++)
                Take(nodes[i], work.Peaks[i], frame);
        }

        idle.Add(work);
    }

    private (int X, int Y) HalfShift(int node) => ((int)MathF.Round(State.MotionU[node] / 2), (int)MathF.Round(State.MotionV[node] / 2));

    private bool IsWhole(int node, int shiftX, int shiftY, PreparedFrame frame)
    {
        (int left, int top) = reference.Corner(node);
        left += shiftX;
        top += shiftY;
        return left >= 0 && top >= 0 && left + layout.Size <= frame.Width && top + layout.Size <= frame.Height && !IsDefective(node, shiftX, shiftY, frame);
    }

    private bool IsDefective(int node, int shiftX, int shiftY, PreparedFrame frame)
    {
        (int left, int top) = reference.Corner(node);
        return frame.AnyDefect(left + shiftX, top + shiftY, left + shiftX + layout.Size - 1, top + shiftY + layout.Size - 1);
    }

    private void Take(int node, CorrelationPeak peak, PreparedFrame frame)
    {
        (int shiftX, int shiftY) = HalfShift(node);
        if (!IsWhole(node, 2 * shiftX, 2 * shiftY, frame) || !IsPeak(peak))
            return;
        double u = 2 * (shiftX + peak.Dx), v = 2 * (shiftY + peak.Dy);
        int wholeU = (int)Math.Round(u), wholeV = (int)Math.Round(v);
        if (IsDefective(node, wholeU, wholeV, frame) || !(reference.CorrelationAt(node, wholeU, wholeV, frame) > LowestCorrelation))
            return;
        found[node] = true;
        State.Flags[node] = VectorFlags.None;
        State.PeakRatio[node] = (float)peak.PeakRatio;
        State.U[node] = (float)u - State.MotionU[node];
        State.V[node] = (float)v - State.MotionV[node];
    }

    private static bool IsPeak(CorrelationPeak peak) => peak.Value > LowestCorrelation && peak.PeakRatio > LowestPeakRatio;

    private void CorrelateRest(int part, PreparedFrame frame)
    {
        CoarseWorkspace work = Take();
        int filled = 0;
        for (int node = part * NodesPerPart; node < Math.Min((part + 1) * NodesPerPart, found.Length); node++)
        {
            if (found[node])
                continue;
            State.Flags[node] = VectorFlags.None;
            State.PeakRatio[node] = float.NaN;
            int shiftX = (int)MathF.Round(State.MotionU[node]), shiftY = (int)MathF.Round(State.MotionV[node]);
            if (!work.Windows.LoadReference(node) || !work.Windows.LoadMoved(node, shiftX, shiftY, frame))
            {
                State.Drop(node, VectorFlags.Masked);
                continue;
            }

            work.Correlator.SetWindows(filled, work.Windows.Reference, work.Windows.Moved);
            work.Lanes[filled++] = (node, shiftX, shiftY);
            if (filled == work.Lanes.Length)
                filled = Flush(filled, work);
        }

        Flush(filled, work);
        idle.Add(work);
    }

    private int Flush(int filled, CoarseWorkspace work)
    {
        if (filled == 0)
            return 0;
        work.Correlator.Correlate(work.Peaks.AsSpan(0, filled), layout.Size / 4);
        for (int lane = 0; lane < filled; lane++)
        {
            (int node, int shiftX, int shiftY) = work.Lanes[lane];
            CorrelationPeak peak = work.Peaks[lane];
            State.PeakRatio[node] = (float)peak.PeakRatio;
            if (!IsPeak(peak))
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
