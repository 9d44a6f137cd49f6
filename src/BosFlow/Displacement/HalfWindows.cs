namespace BosFlow.Displacement;

/// <summary>What depends on the reference alone for windows of half the side around the same nodes. Computed once a run.</summary>
internal sealed class HalfWindows
{
    // Evenly spread dots give 4.
    private const double LargestVarianceRatio = 8;

    /// <summary>Prepares the windows.</summary>
    /// <param name="texture">The reference.</param>
    /// <param name="whole">Its windows of the whole side.</param>
    /// <param name="reference">Their blocks, four or more along a side.</param>
    public HalfWindows(ReferenceTexture texture, ReferenceWindows whole, BlockReference reference)
    {
        PerWindow = reference.Layout.PerWindow / 2;
        Inset = reference.Layout.PerWindow / 4;
        Windows = ReferenceWindows.Build(texture, whole.Layout.Within(whole.Layout.Size / 2), WindowWeighting.TopHat);
        LeaveOutPoorOnes(whole);
        Solver = new WindowSolver(Windows, Totals(reference));
    }

    /// <summary>Normal equations and texture.</summary>
    public ReferenceWindows Windows { get; }

    /// <summary>Solves windows from the sums of their blocks.</summary>
    public WindowSolver Solver { get; }

    /// <summary>Blocks along a side of a half window.</summary>
    public int PerWindow { get; }

    /// <summary>Blocks from the edge of the whole window to that of the half one.</summary>
    public int Inset { get; }

    // A window that the dots happen to miss costs more noise than what it resolves is worth.
    private void LeaveOutPoorOnes(ReferenceWindows whole)
    {
        for (int node = 0; node < Windows.Flags.Length; node++)
        {
            ReadOnlySpan<double> own = Windows.InverseAt(node), ofWhole = whole.InverseAt(node);
            if (Windows.Flags[node] == VectorFlags.None && own[0] + own[2] > LargestVarianceRatio * (ofWhole[0] + ofWhole[2]))
                Windows.Flags[node] = VectorFlags.LowTexture;
        }
    }

    // Static sums of every half window, in double precision: [node * StaticTerms + term].
    private double[] Totals(BlockReference reference)
    {
        BlockLayout layout = reference.Layout;
        NodeGrid grid = Windows.Layout.Grid;
        double[] totals = new double[grid.Count * BlockReference.StaticTerms];
        for (int node = 0; node < grid.Count; node++)
        {
            int left = (node % grid.Columns * layout.PerStep) + Inset, top = (node / grid.Columns * layout.PerStep) + Inset;
            for (int row = top; row < top + PerWindow; row++)
            {
                for (int term = 0; term < BlockReference.StaticTerms; term++)
                {
                    foreach (float block in reference.Statics(row).Slice((term * layout.Columns) + left, PerWindow))
                        totals[(node * BlockReference.StaticTerms) + term] += block;
                }
            }
        }

        return totals;
    }
}
