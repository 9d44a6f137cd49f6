using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>What a pass over one frame sums block by block; written row by row, each row of blocks by one thread.</summary>
internal sealed class BlockSums(BlockLayout layout)
{
    /// <summary>Codes of missing pixels: <see cref="PixelDefects"/> and <see cref="DeformedBand.OutsideFrame"/>; 0 counts those that are not missing.</summary>
    public const int Causes = DeformedBand.OutsideFrame + 1;

    private readonly float[] sums = new float[layout.Rows * TileProducts.Terms * layout.Columns];
    private readonly byte[] incomplete = new byte[layout.Rows * layout.Columns];
    private readonly bool[] anyIncomplete = new bool[layout.Rows];
    private readonly float[]?[] remainders = new float[]?[layout.Rows];

    /// <summary>Sums of <see cref="TileProducts"/> of one row: [term * Columns + block].</summary>
    public Span<float> Row(int row) => sums.AsSpan(row * TileProducts.Terms * layout.Columns, TileProducts.Terms * layout.Columns);

    /// <summary>1 for every block in which the frame misses pixels that the reference has.</summary>
    public Span<byte> Incomplete(int row) => incomplete.AsSpan(row * layout.Columns, layout.Columns);

    /// <summary>Whether a row has such blocks.</summary>
    public bool AnyIncomplete(int row) => anyIncomplete[row];

    /// <summary>Sums of a row of windows, one step of nodes apart: [term * columns + column].</summary>
    /// <param name="top">First row of their blocks.</param>
    /// <param name="left">First block of the first window.</param>
    /// <param name="perWindow">Blocks along a side of a window.</param>
    /// <param name="down">Working memory: one float a block of a row.</param>
    /// <param name="windowSums">Result.</param>
    public void AddWindows(int top, int left, int perWindow, Span<float> down, Span<float> windowSums)
    {
        // Down the columns of blocks first, then along the row.
        int columns = windowSums.Length / TileProducts.Terms;
        for (int term = 0; term < TileProducts.Terms; term++)
        {
            down.Clear();
            for (int row = top; row < top + perWindow; row++)
                RowArithmetic.Add(down, Row(row).Slice(term * layout.Columns, layout.Columns));
            RowArithmetic.SlidingSums(down[left..], perWindow, layout.PerStep, windowSums.Slice(term * columns, columns));
        }
    }

    /// <summary>Finds the columns of blocks in which one of some rows misses pixels.</summary>
    /// <param name="top">First row of blocks.</param>
    /// <param name="rows">Rows.</param>
    /// <param name="incomplete">Not 0 for every such column.</param>
    public void FindIncomplete(int top, int rows, Span<byte> incomplete)
    {
        incomplete.Clear();
        for (int row = top; row < top + rows; row++)
        {
            if (!AnyIncomplete(row))
                continue;
            ReadOnlySpan<byte> blocks = Incomplete(row);
            for (int column = 0; column < blocks.Length; column++)
                incomplete[column] |= blocks[column];
        }
    }

    /// <summary>Starts a row: every block complete.</summary>
    public void Begin(int row)
    {
        if (anyIncomplete[row])
            Incomplete(row).Clear();
        anyIncomplete[row] = false;
    }

    /// <summary>Starts some tiles of a row anew: their blocks complete.</summary>
    /// <param name="row">Row of blocks.</param>
    /// <param name="sampled">1 for every such tile.</param>
    public void Begin(int row, ReadOnlySpan<byte> sampled)
    {
        if (!anyIncomplete[row])
            return;
        Span<byte> blocks = Incomplete(row);
        for (int block = 0; block < blocks.Length; block++)
            blocks[block] &= (byte)(1 - sampled[block * layout.Side / TileRow.Columns]);
    }

    /// <summary>Marks a block as incomplete and gives the place for what is left of it: static sums over the pixels that are there, then the number of pixels by cause.</summary>
    public Span<float> Mark(int row, int column)
    {
        anyIncomplete[row] = true;
        Incomplete(row)[column] = 1;
        remainders[row] ??= new float[(BlockReference.StaticTerms + Causes) * layout.Columns];
        return Remainder(row, column);
    }

    /// <summary>What is left of an incomplete block.</summary>
    public Span<float> Remainder(int row, int column) =>
        remainders[row].AsSpan(column * (BlockReference.StaticTerms + Causes), BlockReference.StaticTerms + Causes);
}
