namespace BosFlow.Media.Pictures;

/// <summary>The strips or tiles of a TIFF page.</summary>
/// <param name="Count">Number of strips or tiles.</param>
/// <param name="RowBytes">Unpacked bytes of a row of one.</param>
/// <param name="Rows">Rows of one.</param>
/// <param name="LastRows">Rows of the last one; tiles are always full.</param>
internal sealed record TiffParts(long Count, long RowBytes, long Rows, long LastRows)
{
    /// <summary>Unpacked bytes of a strip or tile.</summary>
    internal long Bytes(int part) => RowBytes * (part == Count - 1 ? LastRows : Rows);

    internal static TiffParts Of(TiffDirectory page, PictureHeader header, bool tiled)
    {
        long bits = (long)header.BitsPerSample * header.Samples;
        long rows = page.Number(tiled ? TiffTags.TileLength : TiffTags.RowsPerStrip, header.StoredHeight);
        // One strip may claim more rows than there are; nothing may claim none.
        rows = Math.Clamp(rows, 1, tiled ? PictureLimits.MaxSide : header.StoredHeight);
        long columns = tiled ? Math.Clamp(page.Number(TiffTags.TileWidth, header.StoredWidth), 1, PictureLimits.MaxSide) : header.StoredWidth;
        long down = (header.StoredHeight + rows - 1) / rows;
        long across = (header.StoredWidth + columns - 1) / columns;
        return new TiffParts(down * across, ((columns * bits) + 7) / 8, rows, tiled ? rows : header.StoredHeight - ((down - 1) * rows));
    }
}
