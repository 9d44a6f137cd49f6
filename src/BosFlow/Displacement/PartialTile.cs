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
        Span<byte> codes = stackalloc byte[TileRow.Columns * 8];
        for (int term = 0; term < TileProducts.Terms; term++)
            work.ColumnSums.AsSpan((term * layout.TiledWidth) + (tile * TileRow.Columns), TileRow.Columns).Clear();
        bool missing = false;
        for (int y = 0; y < layout.Side; y++)
        {
            work.DisplacementAt(y, x, u[..columns], v[..columns]);
            BSplineWarp.Row(frame.Spline, x, top + y, u[..columns], v[..columns], levels[..columns], inside[..columns]);
            Span<byte> line = codes.Slice(y * TileRow.Columns, columns);
            missing |= FindMissing(frame, x, top + y, u, v, inside, line);
            AddRow(((top + y) * texture.Width) + x, levels[..columns], line, frame.MeanLevel, work.ColumnSums.AsSpan(tile * TileRow.Columns));
        }

        for (int block = 0; missing && block < columns / layout.Side; block++)
            Mark(row, (tile * TileRow.Columns / layout.Side) + block, codes[(block * layout.Side)..]);
    }

    // Where the reference is not usable, nothing is missing: such pixels are in no sum.
    private bool FindMissing(
        PreparedFrame frame, int x, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<float> inside, Span<byte> codes)
    {
        bool any = false;
        for (int k = 0; k < codes.Length; k++)
        {
            bool outside = inside[k] == 0 && texture.Usable[(y * texture.Width) + x + k] != 0;
            codes[k] = outside ? DeformedBand.OutsideFrame : frame.DefectAt(x + k + u[k], y + v[k]);
            any |= codes[k] != 0;
        }

        return any;
    }

    private void AddRow(int pixel, ReadOnlySpan<float> levels, ReadOnlySpan<byte> codes, float frameLevel, Span<float> columnSums)
    {
        int width = layout.TiledWidth;
        for (int k = 0; k < levels.Length; k++)
        {
            if (codes[k] != 0 || texture.Usable[pixel + k] == 0)
                continue;
            float a = texture.Level[pixel + k];
            float e = levels[k] - frameLevel - a;
            columnSums[k] += e * texture.GradientX[pixel + k];
            columnSums[width + k] += e * texture.GradientY[pixel + k];
            columnSums[(2 * width) + k] += e * a;
            columnSums[(3 * width) + k] += e;
            columnSums[(4 * width) + k] += e * e;
        }
    }

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
