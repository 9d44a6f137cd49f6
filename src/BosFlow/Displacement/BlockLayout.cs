namespace BosFlow.Displacement;

/// <summary>
/// Squares of a few pixels that make up every interrogation window without a rest, and lie within one cell between four nodes each: a window's sum is a sum of block sums,
/// whatever the overlap.
/// </summary>
internal sealed class BlockLayout
{
    private BlockLayout(WindowLayout windows, int side)
    {
        Side = side;
        FirstX = windows.FirstX;
        FirstY = windows.FirstY;
        PerWindow = windows.Size / side;
        PerStep = windows.Spacing / side;
        Columns = ((windows.Grid.Columns - 1) * PerStep) + PerWindow;
        Rows = ((windows.Grid.Rows - 1) * PerStep) + PerWindow;
        Tiles = ((Columns * side) + Numerics.Interpolation.TileRow.Columns - 1) / Numerics.Interpolation.TileRow.Columns;
    }

    /// <summary>Side of a block, px: 4 or 8.</summary>
    public int Side { get; }

    /// <summary>First column of pixels of the first block.</summary>
    public int FirstX { get; }

    /// <summary>First row of pixels of the first block.</summary>
    public int FirstY { get; }

    /// <summary>Blocks along a side of a window.</summary>
    public int PerWindow { get; }

    /// <summary>Blocks from one window to the next.</summary>
    public int PerStep { get; }

    /// <summary>Blocks side by side.</summary>
    public int Columns { get; }

    /// <summary>Rows of blocks.</summary>
    public int Rows { get; }

    /// <summary>Tiles of 16 px side by side that cover the blocks; the last one may reach beyond them.</summary>
    public int Tiles { get; }

    /// <summary>Width of the tiles together, px.</summary>
    public int TiledWidth => Tiles * Numerics.Interpolation.TileRow.Columns;

    /// <summary>Row or column of the node whose window's centre is nearest to a row or column of blocks.</summary>
    /// <param name="block">Row or column of blocks.</param>
    /// <param name="nodes">Rows or columns of nodes.</param>
    public int NearestNode(int block, int nodes) => Math.Clamp(((2 * block) + 1 - PerWindow + PerStep) / (2 * PerStep), 0, nodes - 1);

    /// <summary>The blocks of some windows; null where windows are weighted pixel by pixel, or no block of 4 px or more fits.</summary>
    public static BlockLayout? Of(WindowLayout windows, WindowWeighting weighting, WindowSizing sizing = WindowSizing.Fixed, WindowShape shape = WindowShape.Constant) =>
        weighting == WindowWeighting.TopHat && SideOf(windows.Size, windows.Spacing, sizing, shape) is var side and > 0 ? new BlockLayout(windows, side) : null;

    /// <summary>Side of the blocks of some windows, px: 8 or 4; 0 where none fits.</summary>
    public static int SideOf(int window, int spacing, WindowSizing sizing, WindowShape shape)
    {
        foreach (int side in (ReadOnlySpan<int>)[8, 4])
        {
            // Half a window, so that no block lies astride the lines through the nodes; a quarter where half windows are made of blocks too. Four or more where polynomials are fitted to them.
            bool enough = shape == WindowShape.Constant || window >= 4 * side;
            if (enough && window % (side * (sizing == WindowSizing.Adaptive ? 4 : 2)) == 0 && spacing % side == 0)
                return side;
        }

        return 0;
    }
}
