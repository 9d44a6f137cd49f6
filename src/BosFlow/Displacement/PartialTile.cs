using System.Numerics;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Sums of a tile of which some pixels may not be used, or fall outside the frame or on a defect: pixel by pixel. Holds no state of its own.</summary>
internal sealed class PartialTile(ReferenceTexture texture, BlockLayout layout, BlockSums sums)
{
    private const int LargestSide = 8;

    /// <summary>Sums one tile into the column sums; blocks in which pixels are missing are marked, with what is left of them.</summary>
    public void Sum(int row, int tile, PreparedFrame frame, BlockWorkspace work)
    {
        int x = layout.FirstX + (tile * TileRow.Columns), top = layout.FirstY + (row * layout.Side);
        int columns = Math.Min(TileRow.Columns, Math.Min(texture.Width - x, (layout.Columns * layout.Side) - (tile * TileRow.Columns)));
        Span<float> u = stackalloc float[TileRow.Columns], v = stackalloc float[TileRow.Columns];
        Span<float> levels = stackalloc float[LargestSide * TileRow.Columns], kept = stackalloc float[LargestSide * TileRow.Columns];
        Span<byte> codes = stackalloc byte[LargestSide * TileRow.Columns];
        levels.Clear();
        kept.Clear();
        codes.Clear();
        bool missing = false;
        for (int y = 0; y < layout.Side; y++)
        {
            int first = y * TileRow.Columns;
            Span<float> inside = kept.Slice(first, columns);
            ReadOnlySpan<float> usable = texture.Usable.AsSpan(((top + y) * texture.Width) + x, columns);
            if (!usable.ContainsAnyExcept(0))
                continue;
            work.DisplacementAt(y, x, u, v);
            BSplineWarp.Row(frame.Spline, x, top + y, u[..columns], v[..columns], levels.Slice(first, columns), inside);
            if (work.Sure[tile])
                usable.CopyTo(inside);
            else
                missing |= FindMissing(frame, x, top + y, u, v, usable, inside, codes.Slice(first, columns));
        }

        for (int term = 0; term < TileProducts.Terms; term++)
            work.ColumnSums.AsSpan((term * layout.TiledWidth) + (tile * TileRow.Columns), TileRow.Columns).Clear();
        Multiply((top * texture.Width) + x, columns, levels, kept, frame.MeanLevel, work.ColumnSums.AsSpan(tile * TileRow.Columns));
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

    // Along the upper and lower border all pixels of a row are inside or none.
    private static bool FindOutside(ReadOnlySpan<float> usable, Span<float> inside, Span<byte> codes)
    {
        if (!inside.Contains(0))
        {
            usable.CopyTo(inside);
            return false;
        }

        if (!inside.ContainsAnyExcept(0) && !usable.Contains(0))
        {
            codes.Fill(DeformedBand.OutsideFrame);
            return true;
        }

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

    // Sums of every column over the rows of the tile.
    private void Multiply(int pixel, int columns, ReadOnlySpan<float> levels, ReadOnlySpan<float> kept, float frameLevel, Span<float> sums)
    {
        int lanes = Vector<float>.Count, stride = layout.TiledWidth, k = 0;
        Vector<float> mean = new(frameLevel);
        for (; k <= columns - lanes; k += lanes)
        {
            Vector<float> x = Vector<float>.Zero, y = Vector<float>.Zero, own = Vector<float>.Zero, sum = Vector<float>.Zero, square = Vector<float>.Zero;
            for (int row = 0; row < layout.Side; row++)
            {
                int at = pixel + (row * texture.Width) + k, here = (row * TileRow.Columns) + k;
                Vector<float> level = new(texture.Level, at), e = new Vector<float>(kept[here..]) * (new Vector<float>(levels[here..]) - mean - level);
                x += e * new Vector<float>(texture.GradientX, at);
                y += e * new Vector<float>(texture.GradientY, at);
                own += e * level;
                sum += e;
                square += e * e;
            }

            x.CopyTo(sums[k..]);
            y.CopyTo(sums[(stride + k)..]);
            own.CopyTo(sums[((2 * stride) + k)..]);
            sum.CopyTo(sums[((3 * stride) + k)..]);
            square.CopyTo(sums[((4 * stride) + k)..]);
        }

        for (; k < columns; k++)
        {
            for (int row = 0; row < layout.Side; row++)
            {
                int at = pixel + (row * texture.Width) + k, here = (row * TileRow.Columns) + k;
                float e = kept[here] * (levels[here] - frameLevel - texture.Level[at]);
                sums[k] += e * texture.GradientX[at];
                sums[stride + k] += e * texture.GradientY[at];
                sums[(2 * stride) + k] += e * texture.Level[at];
                sums[(3 * stride) + k] += e;
                sums[(4 * stride) + k] += e * e;
            }
        }
    }

    private bool AnyMissing(ReadOnlySpan<byte> codes)
    {
        for (int y = 0; y < layout.Side; y++)
        {
            if (codes.Slice(y * TileRow.Columns, layout.Side).ContainsAnyExcept((byte)0))
                return true;
        }

        return false;
    }

    private void Mark(int row, int column, ReadOnlySpan<byte> codes)
    {
        if (!AnyMissing(codes))
            return;
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

        Span<float> remainder = sums.Mark(row, column);
        for (int term = 0; term < statics.Length; term++)
            remainder[term] = (float)statics[term];
        for (int cause = 0; cause < causes.Length; cause++)
            remainder[statics.Length + cause] = (float)causes[cause];
    }
}
