using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;
using BosFlow.Numerics.Robust;

namespace BosFlow.Displacement;

/// <summary>Decides node by node whether the whole window smears the displacement by more than noise explains, so that the one of half the side is the better.</summary>
/// <remarks>
/// <para>
/// Both windows see the same residuals, the half one a quarter of them. Where the displacement within the window is a shift, the whole window's estimate is efficient and the difference d of both has the variance of the half one less that
/// of the whole one (J. A. Hausman 1978, Econometrica 46:1251, from memory): d^2 over it is 1 in the mean for each component. A bend of the displacement within the window adds its square. The mean of u and v over a node and its neighbours is
/// compared, so that the choice follows fronts instead of noise. At 2 the whole window's bias is as large as the half window's greater noise; noise alone hardly ever exceeds <see cref="Threshold"/> (docs/validation). Noise that pixels share raises the figure of the
/// whole frame: its median counts as 1 where it is greater than that.
/// </para>
/// <para>
/// A window that a mask cuts fits more than a shift (<see cref="ShapeSolver"/>), and the half one lies beside its middle too: it stays whole.
/// </para>
/// <para>
/// What the half window misses itself grows with the side as side^p, p from 1 at a jump to 2 at a bend: between d and d / 3. The geometric mean of both is stated, b^2 = d^2 / 3 less the noise's part of d^2 (a judgement within derived bounds).
/// </para>
/// </remarks>
internal sealed class WindowSelection(ReferenceWindows windows, WindowSolver whole, HalfWindows half, HalfMatch narrow, BlockScatter wide, double squaredBias)
{
    /// <summary>Mean square of the difference, in units of its noise, beyond which the half window is taken.</summary>
    public const float Threshold = 3.5f;

    private const float SquareOfMissing = 1f / 3;
    private const int MostSamples = 4096;

    // Of the mean of two squares of a normal variable, which is exponential.
    private const float MedianOfNoise = 0.6931f;

    private readonly NodeGrid grid = windows.Layout.Grid;
    private readonly bool[] cut = [.. Enumerable.Range(0, windows.Layout.Grid.Count).Select(node => ShapeSolver.IsCut(windows, node))];
    private readonly float[] disagreement = new float[windows.Layout.Grid.Count];
    private readonly float[] samples = new float[Math.Min(MostSamples, windows.Layout.Grid.Count)];

    /// <summary>Compares both windows at the nodes of some rows.</summary>
    public void Compare(int firstRow, int endRow, NodeState state)
    {
        int lanes = Vector<float>.Count, end = endRow * grid.Columns, node = firstRow * grid.Columns;
        for (; node <= end - lanes; node += lanes)
            CompareSideBySide(node, state);
        for (; node < end; node++)
            CompareOne(node, state);
    }

    /// <summary>The comparison at a node; NaN where one of the windows gives nothing.</summary>
    internal float At(int node) => disagreement[node];

    // The plain definition.
    internal void CompareOne(int node, NodeState state) => disagreement[node] = IsMatched(state.Flags[node]) && !cut[node] ? Disagreement(node) : float.NaN;

    private static bool IsMatched(VectorFlags flags) => (flags & ~VectorFlags.NotConverged) == VectorFlags.None;

    internal void CompareSideBySide(int node, NodeState state)
    {
        MatchedRow small = narrow.Matches, large = wide.Solutions;
        Vector<float> Of(float[] values) => new(values, node);
        Vector<float> smallU = half.Solver.InverseAt(0, node), largeU = whole.InverseAt(0, node), smallV = half.Solver.InverseAt(2, node), largeV = whole.InverseAt(2, node);
        Vector<float> smallSigma = Of(small.SigmaU), largeSigma = Of(large.SigmaU), bias = new((float)squaredBias);
        Vector<float> variance = Vector.Max(smallSigma * smallSigma / smallU, largeSigma * largeSigma / largeU);
        Vector<float> du = Of(small.Du) - Of(large.Du), dv = Of(small.Dv) - Of(large.Dv);
        Vector<float> noiseU = (variance * (smallU - largeU)) + bias, noiseV = (variance * (smallV - largeV)) + bias;
        (((du * du / noiseU) + (dv * dv / noiseV)) * 0.5f).CopyTo(disagreement, node);
        Span<VectorFlags> flags = state.Flags.AsSpan(node, Vector<float>.Count);
        if (!MemoryMarshal.AsBytes(flags).ContainsAnyExcept((byte)0) && !cut.AsSpan(node, flags.Length).Contains(true))
            return;
        for (int lane = 0; lane < flags.Length; lane++)
        {
            if (!IsMatched(flags[lane]) || cut[node + lane])
                disagreement[node + lane] = float.NaN;
        }
    }

    /// <summary>What noise alone makes of the comparison in this frame, at least 1.</summary>
    public float NoiseLevel()
    {
        int count = 0;
        for (int i = 0; i < samples.Length; i++)
        {
            float here = disagreement[(int)((long)i * disagreement.Length / samples.Length)];
            if (!float.IsNaN(here))
                samples[count++] = here;
        }

        return count == 0 ? 1 : Math.Max(1, Quantiles.Median(samples.AsSpan(0, count)) / MedianOfNoise);
    }

    /// <summary>Chooses at the nodes of some rows, and puts the half window's result where it was chosen.</summary>
    public void Choose(int firstRow, int endRow, float noiseLevel, PredictorField predictor, NodeState state)
    {
        float limit = Threshold * noiseLevel;
        bool chooses = state.Choice == WindowChoice.Choose;
        float[] rented = ArrayPool<float>.Shared.Rent(3 * (grid.Columns + 2));
        Span<float> around = rented.AsSpan(0, grid.Columns);
        for (int row = firstRow; row < endRow; row++)
        {
            if (chooses)
                Around(row, around, rented.AsSpan(grid.Columns));
            for (int column = 0; column < grid.Columns; column++)
            {
                int node = (row * grid.Columns) + column;
                if (float.IsNaN(disagreement[node]))
                    state.ForgetHalf(node);
                else if (chooses && around[column] > limit && !state.IsHalf[node])
                    Mark(node, noiseLevel, state);
                if (state.IsHalf[node])
                    Use(node, predictor, state);
            }
        }

        ArrayPool<float>.Shared.Return(rented);
    }

    private float Disagreement(int node)
    {
        (double du, double dv) = Difference(node);
        (double noiseU, double noiseV) = Noise(node);
        return (float)(((du * du / noiseU) + (dv * dv / noiseV)) / 2);
    }

    private (double U, double V) Difference(int node) => (narrow.At(node).Du - wide.At(node).Du, narrow.At(node).Dv - wide.At(node).Dv);

    // Variance of the difference, with the larger residual of the two windows; what interpolation makes of single dots tells nothing of the flow either.
    private (double U, double V) Noise(int node)
    {
        MatchedWindow small = narrow.At(node), large = wide.At(node);
        ReadOnlySpan<double> ofSmall = half.Windows.InverseAt(node), ofLarge = windows.InverseAt(node);
        double smallVariance = small.SigmaU * small.SigmaU / ofSmall[0], largeVariance = large.SigmaU * large.SigmaU / ofLarge[0];
        double variance = Math.Max(smallVariance, largeVariance);
        return ((variance * (ofSmall[0] - ofLarge[0])) + squaredBias, (variance * (ofSmall[2] - ofLarge[2])) + squaredBias);
    }

    // Means over every node of a row and its neighbours, of those that are known: down first, then along the row, one more place at both ends.
    private void Around(int row, Span<float> means, Span<float> memory)
    {
        int length = grid.Columns + 2;
        Span<float> sums = memory[..length], counts = memory.Slice(length, length);
        sums.Clear();
        counts.Clear();
        for (int r = Math.Max(0, row - 1); r <= Math.Min(grid.Rows - 1, row + 1); r++)
            AddKnown(disagreement.AsSpan(r * grid.Columns, grid.Columns), sums[1..], counts[1..]);
        for (int c = 0; c < means.Length; c++)
            means[c] = (sums[c] + sums[c + 1] + sums[c + 2]) / (counts[c] + counts[c + 1] + counts[c + 2]);
    }

    private static void AddKnown(ReadOnlySpan<float> values, Span<float> sums, Span<float> counts)
    {
        int lanes = Vector<float>.Count, c = 0;
        for (; c <= values.Length - lanes; c += lanes)
        {
            Vector<float> here = new(values[c..]);
            Vector<int> known = Vector.Equals(here, here);
            (new Vector<float>(sums[c..]) + Vector.ConditionalSelect(known, here, Vector<float>.Zero)).CopyTo(sums[c..]);
            (new Vector<float>(counts[c..]) + Vector.ConditionalSelect(known, Vector<float>.One, Vector<float>.Zero)).CopyTo(counts[c..]);
        }

        for (; c < values.Length; c++)
        {
            sums[c] += float.IsNaN(values[c]) ? 0 : values[c];
            counts[c] += float.IsNaN(values[c]) ? 0 : 1;
        }
    }

    private void Mark(int node, float noiseLevel, NodeState state)
    {
        (double du, double dv) = Difference(node);
        (double noiseU, double noiseV) = Noise(node);
        state.IsHalf[node] = true;
        state.MissingU[node] = (float)(SquareOfMissing * Math.Max(0, (du * du) - (noiseLevel * noiseU)));
        state.MissingV[node] = (float)(SquareOfMissing * Math.Max(0, (dv * dv) - (noiseLevel * noiseV)));
    }

    private void Use(int node, PredictorField predictor, NodeState state)
    {
        state.Flags[node] = VectorFlags.None;
        state.ShapeOrder[node] = 0;
        RefinementResult.Store(state, node, predictor, VectorFlags.None, narrow.At(node));
        wide.Keep(node, narrow.At(node));
    }
}
