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

    /// <summary>Starts a row: every block complete.</summary>
    public void Begin(int row)
    {
        if (anyIncomplete[row])
            Incomplete(row).Clear();
        anyIncomplete[row] = false;
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
