using System.Collections.Concurrent;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Matches the windows of half the side from the block sums that a pass over whole windows left, row by row. Safe for several threads, each with rows of its own.</summary>
internal sealed class HalfMatch(HalfWindows half, BlockLayout layout, BlockSums sums)
{
    private readonly int columns = half.Windows.Layout.Grid.Columns;
    private readonly MatchedRow matches = new(half.Windows.Layout.Grid.Count);
    private readonly ConcurrentBag<Workspace> idle = [];

    /// <summary>The solution at a node; Du is NaN where there is none: without texture, masked, or where the frame misses pixels.</summary>
    public MatchedWindow At(int node) => matches.At(node);

    /// <summary>Solves some rows of nodes.</summary>
    public void Solve(int first, int end)
    {
        if (!idle.TryTake(out Workspace? work))
            work = new Workspace(layout.Columns, columns);
        for (int row = first; row < end; row++)
        {
            AddBlocks(row, work);
            half.Solver.Solve(row, work.WindowSums, columns, work.Matches);
            work.Matches.CopyTo(matches, row * columns);
            bool anyIncomplete = AnyIncomplete(row);
            for (int column = 0; column < columns; column++)
            {
                int node = (row * columns) + column;
                if (half.Windows.Flags[node] != VectorFlags.None || (anyIncomplete && IsIncomplete(row, column)))
                    matches.Du[node] = float.NaN;
            }
        }

        idle.Add(work);
    }

    private int Top(int row) => (row * layout.PerStep) + half.Inset;

    private bool AnyIncomplete(int row)
    {
        for (int k = Top(row); k < Top(row) + half.PerWindow; k++)
        {
            if (sums.AnyIncomplete(k))
                return true;
        }

        return false;
    }

    private bool IsIncomplete(int row, int column)
    {
        for (int k = Top(row); k < Top(row) + half.PerWindow; k++)
        {
            if (sums.AnyIncomplete(k) && sums.Incomplete(k).Slice((column * layout.PerStep) + half.Inset, half.PerWindow).Contains((byte)1))
                return true;
        }

        return false;
    }

    // Down the columns of blocks first, then along the row.
    private void AddBlocks(int row, Workspace work)
    {
        for (int term = 0; term < TileProducts.Terms; term++)
        {
            Span<float> down = work.BlockColumn;
            down.Clear();
            for (int k = Top(row); k < Top(row) + half.PerWindow; k++)
                RowArithmetic.Add(down, sums.Row(k).Slice(term * layout.Columns, layout.Columns));
            RowArithmetic.SlidingSums(down[half.Inset..], half.PerWindow, layout.PerStep, work.WindowSums.AsSpan(term * columns, columns));
        }
    }

    private sealed class Workspace(int blocks, int columns)
    {
        public float[] BlockColumn { get; } = new float[blocks];

        public float[] WindowSums { get; } = new float[TileProducts.Terms * columns];

        public MatchedRow Matches { get; } = new(columns);
    }
}
