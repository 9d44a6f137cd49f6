using BosFlow.Numerics.Interpolation;
using BosFlow.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>The reference as the passes over blocks read it: pixels in the order of the work, sums of blocks, solvers of windows. Computed once a run.</summary>
internal sealed class BlockReference
{
    /// <summary>Sums of products of the reference with itself, in the order of the normal matrix.</summary>
    public const int StaticTerms = SymmetricInverse4.PackedLength;

    private readonly short[] pixels;
    private readonly byte[] whole;
    private readonly float[] statics;

    /// <summary>Prepares the reference.</summary>
    /// <param name="texture">Its pixels.</param>
    /// <param name="windows">Its windows.</param>
    /// <param name="layout">Their blocks.</param>
    /// <param name="settings">Passes, for <see cref="EdgeScatter"/>; null = nothing is said of edges.</param>
    public BlockReference(ReferenceTexture texture, ReferenceWindows windows, BlockLayout layout, DisplacementSettings? settings = null)
    {
        Layout = layout;
        EdgeScatter = settings is null ? null : EdgeScatter.Of(layout, settings);
        SharedScatter = texture.SharedScatter(layout.Side, layout.Side * layout.PerWindow);
        GradientNoise = texture.GradientNoise;
        pixels = new short[checked(layout.Rows * RowLength)];
        whole = new byte[layout.Rows * layout.Tiles];
        statics = new float[layout.Rows * StaticTerms * layout.Columns];
        LevelStep = Step(texture.Level);
        GradientStep = Math.Max(Step(texture.GradientX), Step(texture.GradientY));
        for (int row = 0; row < layout.Rows; row++)
        {
            Pack(texture, row);
            SumBlocks(texture, row);
        }

        Solver = new WindowSolver(windows, WindowTotals(windows.Layout));
    }

    public BlockLayout Layout { get; }

    /// <summary>Variance of the noise in a derivative over that of a residual.</summary>
    public double GradientNoise { get; }

    /// <summary>What the passes leave of the scatter of blocks and groups; null where groups tell nothing of edges.</summary>
    public EdgeScatter? EdgeScatter { get; }

    /// <summary>Factor by which windows scatter more than their blocks tell, since neighbouring pixels share noise.</summary>
    public double SharedScatter { get; }

    /// <summary>Solves windows from the sums of their blocks.</summary>
    public WindowSolver Solver { get; }

    /// <summary>Step of the packed grey levels, digital numbers: 1/128 or less of one of 8 bits, whose own rounding is some hundred times as large.</summary>
    public float LevelStep { get; }

    /// <summary>Step of the packed derivatives, digital numbers a pixel.</summary>
    public float GradientStep { get; }

    private int RowLength => 3 * Layout.Side * Layout.TiledWidth;

    /// <summary>Grey levels and derivatives of a row of blocks, packed as <see cref="TileRow.Reference"/>.</summary>
    public ReadOnlySpan<short> Pixels(int row) => pixels.AsSpan(row * RowLength, RowLength);

    /// <summary>1 for every tile of a row of blocks whose pixels are all usable.</summary>
    public ReadOnlySpan<byte> Whole(int row) => whole.AsSpan(row * Layout.Tiles, Layout.Tiles);

    /// <summary>Static sums of a row of blocks: [term * Columns + block].</summary>
    public ReadOnlySpan<float> Statics(int row) => statics.AsSpan(row * StaticTerms * Layout.Columns, StaticTerms * Layout.Columns);

    private void Pack(ReferenceTexture texture, int row)
    {
        for (int tile = 0; tile < Layout.Tiles; tile++)
        {
            int left = Layout.FirstX + (tile * TileRow.Columns);
            int inside = Math.Min(TileRow.Columns, texture.Width - left);
            bool all = inside == TileRow.Columns;
            for (int y = 0; y < Layout.Side; y++)
            {
                int from = ((Layout.FirstY + (row * Layout.Side) + y) * texture.Width) + left;
                Span<short> to = pixels.AsSpan((row * RowLength) + (((tile * Layout.Side) + y) * 3 * TileRow.Columns), 3 * TileRow.Columns);
                Pack(texture.Level.AsSpan(from, inside), LevelStep, to);
                Pack(texture.GradientX.AsSpan(from, inside), GradientStep, to[TileRow.Columns..]);
                Pack(texture.GradientY.AsSpan(from, inside), GradientStep, to[(2 * TileRow.Columns)..]);
                all &= !texture.Usable.AsSpan(from, inside).Contains(0);
            }

            whole[(row * Layout.Tiles) + tile] = all ? (byte)1 : (byte)0;
        }
    }

    // The largest value fills 16 bits.
    private static float Step(float[] values)
    {
        float most = 0;
        foreach (float value in values)
            most = Math.Max(most, Math.Abs(value));
        return most == 0 ? 1 : most / short.MaxValue;
    }

    private static void Pack(ReadOnlySpan<float> values, float step, Span<short> target)
    {
        for (int i = 0; i < values.Length; i++)
            target[i] = (short)MathF.Round(values[i] / step);
    }

    private void SumBlocks(ReferenceTexture texture, int row)
    {
        Span<double> sums = stackalloc double[StaticTerms];
        for (int column = 0; column < Layout.Columns; column++)
        {
            sums.Clear();
            for (int y = 0; y < Layout.Side; y++)
            {
                int first = ((Layout.FirstY + (row * Layout.Side) + y) * texture.Width) + Layout.FirstX + (column * Layout.Side);
                for (int i = first; i < first + Layout.Side; i++)
                    AddPixel(texture, i, sums);
            }

            for (int term = 0; term < StaticTerms; term++)
                statics[(((row * StaticTerms) + term) * Layout.Columns) + column] = (float)sums[term];
        }
    }

    /// <summary>Adds the products of one pixel; those of an unusable one are zero.</summary>
    public static void AddPixel(ReferenceTexture texture, int pixel, Span<double> sums)
    {
        double gx = texture.GradientX[pixel], gy = texture.GradientY[pixel], a = texture.Level[pixel];
        sums[0] += gx * gx;
        sums[1] += gy * gx;
        sums[2] += gy * gy;
        sums[3] += a * gx;
        sums[4] += a * gy;
        sums[5] += a * a;
        sums[6] += gx;
        sums[7] += gy;
        sums[8] += a;
        sums[9] += texture.Usable[pixel];
    }

    // Static sums of every window, in double precision: [node * StaticTerms + term].
    private double[] WindowTotals(WindowLayout windows)
    {
        double[] totals = new double[windows.Grid.Count * StaticTerms];
        for (int node = 0; node < windows.Grid.Count; node++)
        {
            int column = node % windows.Grid.Columns * Layout.PerStep, row = node / windows.Grid.Columns * Layout.PerStep;
            for (int y = row; y < row + Layout.PerWindow; y++)
            {
                for (int term = 0; term < StaticTerms; term++)
                {
                    foreach (float block in Statics(y).Slice((term * Layout.Columns) + column, Layout.PerWindow))
                        totals[(node * StaticTerms) + term] += block;
                }
            }
        }

        return totals;
    }
}
