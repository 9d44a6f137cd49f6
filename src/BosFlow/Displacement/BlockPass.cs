using System.Collections.Concurrent;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>
/// One pass of least-squares matching over all windows by sums of blocks: the frame is deformed and multiplied with the reference in one go, and a window adds up its
/// blocks, so that the cost hardly depends on the overlap. A later pass over the same frame may move its sums instead (<see cref="MovedSums"/>).
/// </summary>
internal sealed class BlockPass : IRefinementPass
{
    private const int RowsPerPart = 16;
    private const int BlockRowsPerPart = 8;

    private readonly ReferenceWindows windows;
    private readonly BlockReference reference;
    private readonly BlockLayout layout;
    private readonly BlockSums sums;
    private readonly PartialTile partial;
    private readonly PartialWindow partialWindow;
    private readonly BlockScatter scatter;
    private readonly MovedSums moved;
    private readonly ShapeSolver? shape;
    private readonly int width;
    private readonly int height;
    private readonly ConcurrentBag<BlockWorkspace> idle = [];

    public BlockPass(ReferenceTexture texture, ReferenceWindows windows, BlockReference reference, ShapeSolver? shape = null)
    {
        this.shape = shape;
        this.windows = windows;
        this.reference = reference;
        layout = reference.Layout;
        width = texture.Width;
        height = texture.Height;
        sums = new BlockSums(layout);
        partial = new PartialTile(texture, layout, sums);
        partialWindow = new PartialWindow(windows, reference, sums);
        scatter = new BlockScatter(windows, reference, sums);
        moved = new MovedSums(windows, reference, sums);
    }

    /// <summary>Sums of the blocks in the last run.</summary>
    public BlockSums Sums => sums;

    /// <summary>The solutions of the last run, and how residuals scatter about them.</summary>
    public BlockScatter Scatter => scatter;

    public void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        threads.Run(Parts(layout.Rows, BlockRowsPerPart), part => SumRows(part * BlockRowsPerPart, Math.Min((part + 1) * BlockRowsPerPart, layout.Rows), frame, predictor, state), cancellationToken);
        int nodeRows = windows.Layout.Grid.Rows;
        threads.Run(Parts(nodeRows, RowsPerPart), part => SolveRows(part * RowsPerPart, Math.Min((part + 1) * RowsPerPart, nodeRows), predictor, state), cancellationToken);
    }

    public void RateScatter(NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        scatter.Rate(state, threads, cancellationToken);
        moved.Tell(state);
    }

    private static int Parts(int rows, int perPart) => (rows + perPart - 1) / perPart;

    private BlockWorkspace Take(PredictorField predictor) => idle.TryTake(out BlockWorkspace? workspace) ? workspace : new BlockWorkspace(layout, windows.Layout.Grid.Columns, predictor.Columns, shape?.NewMoments());

    private void SumRows(int first, int end, PreparedFrame frame, PredictorField predictor, NodeState state)
    {
        BlockWorkspace work = Take(predictor);
        work.Begin();
        for (int row = first; row < end; row++)
        {
            if (BeginRow(row, predictor, state, work))
                SumTiles(row, frame, predictor, work);
        }

        idle.Add(work);
    }

    // Finds the tiles in which the frame is to be read; false where there are none.
    private bool BeginRow(int row, PredictorField predictor, NodeState state, BlockWorkspace work)
    {
        if (state.Sampling == Sampling.Everywhere)
        {
            moved.Begin(row);
            work.Sampled.AsSpan().Fill(1);
        }
        else if (!moved.Move(row, predictor, state, scatter.Solutions, work.Moved, work.Sampled))
        {
            return false;
        }

        sums.Begin(row, work.Sampled);
        return true;
    }

    private void SumTiles(int row, PreparedFrame frame, PredictorField predictor, BlockWorkspace work)
    {
        int y = layout.FirstY + (row * layout.Side);
        work.Advance(y, layout.Side, predictor);
        MarkTiles(row, y, frame, predictor, work);
        TileProducts.Sum(frame.Spline, TilesOf(row, y, frame, work), work.ColumnSums);
        for (int tile = 0; tile < layout.Tiles; tile++)
        {
            if (work.Summed[tile] == 0 && work.Sampled[tile] != 0)
                partial.Sum(row, tile, frame, work);
        }

        for (int tile = 0; tile < layout.Tiles; tile++)
        {
            int next = tile;
            while (next < layout.Tiles && work.Sampled[next] != 0)
                next++;
            if (next > tile)
                SumBlocks(tile, next, work.ColumnSums, sums.Row(row));
            tile = next;
        }
    }

    private TileRow TilesOf(int row, int y, PreparedFrame frame, BlockWorkspace work) => new()
    {
        X = layout.FirstX,
        Y = y,
        Rows = layout.Side,
        Summed = work.Summed,
        U = work.U,
        V = work.V,
        Stride = work.Stride,
        Weights = work.RowWeights,
        Reference = reference.Pixels(row),
        LevelStep = reference.LevelStep,
        GradientStep = reference.GradientStep,
        FrameLevel = frame.MeanLevel,
    };

    // A tile goes through the fast kernel when all its pixels are usable, surely fall within the frame, and no defect is near.
    private void MarkTiles(int row, int y, PreparedFrame frame, PredictorField predictor, BlockWorkspace work)
    {
        int above = predictor.NodesAbove(y);
        (float leastU, float mostU) = predictor.RangeU(above);
        (float leastV, float mostV) = predictor.RangeV(above);
        ReadOnlySpan<byte> whole = reference.Whole(row);
        const float Margin = BSplineWarp.BorderMargin;
        bool inside = y + leastV >= Margin && y + layout.Side - 1 + mostV <= height - 1 - Margin;
        for (int tile = 0; tile < work.Summed.Length; tile++)
        {
            work.Summed[tile] = 0;
            if (work.Sampled[tile] == 0)
                continue;
            int x = layout.FirstX + (tile * TileRow.Columns), last = x + TileRow.Columns - 1;
            bool sure = inside && x + leastU >= Margin && last + mostU <= width - 1 - Margin;
            sure = (sure || SurelyInside(x, y, work)) && !frame.AnyDefect(x + leastU, y + leastV, last + mostU, y + layout.Side - 1 + mostV);
            work.Sure[tile] = sure;
            work.Summed[tile] = sure && whole[tile] != 0 ? (byte)1 : (byte)0;
        }
    }

    // The same by what the tile itself is displaced: near the border, where the range of the whole row says too little.
    private bool SurelyInside(int x, int y, BlockWorkspace work)
    {
        (float leastU, float mostU, float leastV, float mostV) = work.RangeOver(x, Math.Min(TileRow.Columns, width - x));
        const float Margin = BSplineWarp.BorderMargin;
        return x + leastU >= Margin && x + TileRow.Columns - 1 + mostU <= width - 1 - Margin
            && y + leastV >= Margin && y + layout.Side - 1 + mostV <= height - 1 - Margin;
    }

    // Of the tiles from one up to another.
    private void SumBlocks(int tile, int end, ReadOnlySpan<float> columnSums, Span<float> blocks)
    {
        int first = tile * TileRow.Columns / layout.Side, count = Math.Min(end * TileRow.Columns / layout.Side, layout.Columns) - first;
        for (int term = 0; term < TileProducts.Terms; term++)
        {
            ReadOnlySpan<float> columns = columnSums.Slice((term * layout.TiledWidth) + (tile * TileRow.Columns), (end - tile) * TileRow.Columns);
            RowArithmetic.SumGroups(columns, layout.Side, blocks.Slice((term * layout.Columns) + first, count));
        }
    }

    private void SolveRows(int first, int end, PredictorField predictor, NodeState state)
    {
        BlockWorkspace work = Take(predictor);
        int columns = windows.Layout.Grid.Columns;
        for (int row = first; row < end; row++)
        {
            sums.AddWindows(row * layout.PerStep, 0, layout.PerWindow, work.BlockColumn, work.WindowSums);
            reference.Solver.Solve(row, work.WindowSums, columns, work.Matches);
            scatter.Keep(row, work.Matches);
            FitShape(row, state, work);
            sums.FindIncomplete(row * layout.PerStep, layout.PerWindow, work.IncompleteBlocks);
            for (int column = 0; column < columns; column += RefinementResult.SideBySide)
            {
                int count = Math.Min(RefinementResult.SideBySide, columns - column);
                bool plain = !partialWindow.AnyPartial(column, count, work.IncompleteBlocks)
                    && RefinementResult.TryStore(state, (row * columns) + column, count, predictor, windows.Flags, work.Matches, column);
                for (int k = 0; k < count && !plain; k++)
                    StoreOne(row, column + k, predictor, state, work);
            }
        }

        idle.Add(work);
    }

    private void FitShape(int row, NodeState state, BlockWorkspace work)
    {
        if (shape is null || work.Moments is null)
            return;
        Span<byte> orders = state.ShapeOrder.AsSpan(row * windows.Layout.Grid.Columns, windows.Layout.Grid.Columns);
        orders.Clear();
        if (!state.FitsShape || !shape.AnyOrder(row))
            return;
        work.Moments.Add(sums, row * layout.PerStep);
        shape.Solve(row, work.Moments, work.WindowSums, work.Matches);
        shape.Orders(row).CopyTo(orders);
    }

    private void StoreOne(int row, int column, PredictorField predictor, NodeState state, BlockWorkspace work)
    {
        int node = (row * windows.Layout.Grid.Columns) + column;
        if (!state.Begin(node, windows.Flags[node]))
            return;
        MatchedWindow match = work.Matches.At(column);
        VectorFlags failure = double.IsNaN(match.Du) ? VectorFlags.LowCorrelation : VectorFlags.None;
        if (partialWindow.AnyPartial(column, 1, work.IncompleteBlocks))
        {
            state.ShapeOrder[node] = 0;
            failure = partialWindow.Match(row, column, work.WindowSums, out match);
            scatter.Keep(node, match);
        }

        RefinementResult.Store(state, node, predictor, failure, match);
    }
}
