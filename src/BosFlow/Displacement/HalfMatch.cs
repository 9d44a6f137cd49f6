using System.Collections.Concurrent;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Matches the windows of half the side from the block sums that a pass over whole windows left, row by row. Safe for several threads, each with rows of its own.</summary>
internal sealed class HalfMatch(HalfWindows half, BlockLayout layout, BlockSums sums)
{
    private readonly int columns = half.Windows.Layout.Grid.Columns;
    private readonly MatchedRow matches = new(half.Windows.Layout.Grid.Count);
    private readonly ConcurrentBag<Workspace> idle = [];

    /// <summary>All solutions, one a node.</summary>
    public MatchedRow Matches => matches;

    /// <summary>The solution at a node; Du is NaN where there is none: without texture, masked, or where the frame misses pixels.</summary>
    public MatchedWindow At(int node) => matches.At(node);

    /// <summary>Solves some rows of nodes.</summary>
    public void Solve(int first, int end)
    {
        if (!idle.TryTake(out Workspace? work))
            work = new Workspace(layout.Columns, columns);
        for (int row = first; row < end; row++)
        {
            int top = (row * layout.PerStep) + half.Inset;
            sums.AddWindows(top, half.Inset, half.PerWindow, work.BlockColumn, work.WindowSums);
            half.Solver.Solve(row, work.WindowSums, columns, work.Matches);
            work.Matches.CopyTo(matches, row * columns);
            sums.FindIncomplete(top, half.PerWindow, work.IncompleteBlocks);
            for (int column = 0; column < columns; column++)
            {
                int node = (row * columns) + column;
                if (half.Windows.Flags[node] != VectorFlags.None || work.IncompleteBlocks.AsSpan((column * layout.PerStep) + half.Inset, half.PerWindow).ContainsAnyExcept((byte)0))
                    matches.Du[node] = float.NaN;
            }
        }

        idle.Add(work);
    }

    private sealed class Workspace(int blocks, int columns)
    {
        public float[] BlockColumn { get; } = new float[blocks];

        public byte[] IncompleteBlocks { get; } = new byte[blocks];

        public float[] WindowSums { get; } = new float[TileProducts.Terms * columns];

        public MatchedRow Matches { get; } = new(columns);
    }
}
