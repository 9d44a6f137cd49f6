using System.Numerics;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Sums of a tile of which some pixels may not be used, or fall outside the frame or on a defect: pixel by pixel. Holds no state of its own.</summary>
internal sealed class PartialTile(ReferenceTexture texture, BlockLayout layout, BlockSums sums)
{
    /// <summary>Sums one tile into the column sums; blocks in which pixels are missing are marked, with what is left of them.</summary>
    public void Sum(int row, int tile, PreparedFrame frame, BlockWorkspace work)
    {
        int x = layout.FirstX + (tile * TileRow.Columns), top = layout.FirstY + (row * layout.Side);
        int columns = Math.Min(TileRow.Columns, Math.Min(texture.Width - x, (layout.Columns * layout.Side) - (tile * TileRow.Columns)));
        Span<float> u = stackalloc float[TileRow.Columns], v = stackalloc float[TileRow.Columns];
        Span<float> levels = stackalloc float[TileRow.Columns], inside = stackalloc float[TileRow.Columns];
        Span<float> sums = stackalloc float[TileProducts.Terms * TileRow.Columns];
        Span<byte> codes = stackalloc byte[TileRow.Columns * 8];
        levels.Clear();
        inside.Clear();
        sums.Clear();
        bool missing = false;
        for (int y = 0; y < layout.Side; y++)
        {
            int pixel = ((top + y) * texture.Width) + x;
            work.DisplacementAt(y, x, u, v);
            BSplineWarp.Row(frame.Spline, x, top + y, u[..columns], v[..columns], levels[..columns], inside[..columns]);
            ReadOnlySpan<float> usable = texture.Usable.AsSpan(pixel, columns);
            if (work.Sure[tile])
                usable.CopyTo(inside);
            else
                missing |= FindMissing(frame, x, top + y, u, v, usable, inside, codes.Slice(y * TileRow.Columns, columns));
            AddRow(pixel, columns, levels, inside, frame.MeanLevel, sums);
        }

        for (int term = 0; term < TileProducts.Terms; term++)
            sums.Slice(term * TileRow.Columns, TileRow.Columns).CopyTo(work.ColumnSums.AsSpan((term * layout.TiledWidth) + (tile * TileRow.Columns)));
        for (int block = 0; missing && block < columns / layout.Side; block++)
            Mark(row, (tile * TileRow.Columns / layout.Side) + block, codes[(block * layout.Side)..]);
    }

    // Sets "inside" to 0 where a pixel takes no part. Where the reference is not usable, nothing lies outside: such pixels are in no sum.
    private static bool FindMissing(
        PreparedFrame frame, int x, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<float> usable, Span<float> inside, Span<byte> codes)
    {
        bool any = FindOutside(usable, inside, codes);
        for (int k = 0; frame.Defects is not null && k < codes.Length; k++)
        {
            if (codes[k] != 0)
                continue;
            codes[k] = frame.DefectAt(x + k + u[k], y + v[k]);
            if (codes[k] == 0)
                continue;
            inside[k] = 0;
            any = true;
        }

        return any;
    }

    private static bool FindOutside(ReadOnlySpan<float> usable, Span<float> inside, Span<byte> codes)
    {
        codes.Clear();
        bool any = false;
        for (int k = 0; k < codes.Length; k++)
        {
            if (inside[k] == 0 && usable[k] != 0)
            {
                codes[k] = DeformedBand.OutsideFrame;
                any = true;
            }
        }

        int lanes = Vector<float>.Count, x = 0;
        for (; x <= usable.Length - lanes; x += lanes)
            (new Vector<float>(inside[x..]) * new Vector<float>(usable[x..])).CopyTo(inside[x..]);
        for (; x < usable.Length; x++)
            inside[x] *= usable[x];
        return any;
    }

    private void AddRow(int pixel, int columns, ReadOnlySpan<float> levels, ReadOnlySpan<float> kept, float frameLevel, Span<float> sums)
    {
        ReadOnlySpan<float> a = texture.Level.AsSpan(pixel, columns), gx = texture.GradientX.AsSpan(pixel, columns), gy = texture.GradientY.AsSpan(pixel, columns);
        int lanes = Vector<float>.Count, k = 0;
        Vector<float> mean = new(frameLevel);
        for (; k <= columns - lanes; k += lanes)
        {
            Vector<float> level = new(a[k..]), e = new Vector<float>(kept[k..]) * (new Vector<float>(levels[k..]) - mean - level);
            Add(e * new Vector<float>(gx[k..]), sums[k..]);
            Add(e * new Vector<float>(gy[k..]), sums[(TileRow.Columns + k)..]);
            Add(e * level, sums[((2 * TileRow.Columns) + k)..]);
            Add(e, sums[((3 * TileRow.Columns) + k)..]);
            Add(e * e, sums[((4 * TileRow.Columns) + k)..]);
        }

        for (; k < columns; k++)
        {
            float e = kept[k] * (levels[k] - frameLevel - a[k]);
            sums[k] += e * gx[k];
            sums[TileRow.Columns + k] += e * gy[k];
            sums[(2 * TileRow.Columns) + k] += e * a[k];
            sums[(3 * TileRow.Columns) + k] += e;
            sums[(4 * TileRow.Columns) + k] += e * e;
        }
    }

    private static void Add(Vector<float> values, Span<float> sums) => (new Vector<float>(sums) + values).CopyTo(sums);

    private void Mark(int row, int column, ReadOnlySpan<byte> codes)
    {
        Span<double> statics = stackalloc double[BlockReference.StaticTerms];
        Span<double> causes = stackalloc double[BlockSums.Causes];
        int first = ((layout.FirstY + (row * layout.Side)) * texture.Width) + layout.FirstX + (column * layout.Side);
        for (int y = 0; y < layout.Side; y++)
        {
            for (int k = 0; k < layout.Side; k++)
            {
                byte code = codes[(y * TileRow.Columns) + k];
                causes[code]++;
                if (code == 0)
                    BlockReference.AddPixel(texture, first + (y * texture.Width) + k, statics);
            }
        }

        if (causes[0] == layout.Side * layout.Side)
            return;
        Span<float> remainder = sums.Mark(row, column);
        for (int term = 0; term < statics.Length; term++)
            remainder[term] = (float)statics[term];
        for (int cause = 0; cause < causes.Length; cause++)
            remainder[statics.Length + cause] = (float)causes[cause];
    }
}
