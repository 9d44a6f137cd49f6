namespace BosFlow.Media.Pictures;

/// <summary>One directory (page) of a TIFF or BigTIFF file: numbers by tag. Source: TIFF Revision 6.0, Adobe, 1992, section 2; BigTIFF as in the libtiff documentation.</summary>
internal sealed class TiffDirectory
{
    private const int MostEntries = 4096;
    // Strips or tiles of one page: more than a tile for every 16 x 16 px of the largest picture is damage.
    private const ulong MostValues = 1 << 20;

    private readonly Dictionary<int, (int Type, ulong Count, long ValueOffset)> entries = [];
    private readonly HeaderBytes bytes;
    private readonly TiffLayout layout;

    private TiffDirectory(HeaderBytes bytes, TiffLayout layout)
    {
        this.bytes = bytes;
        this.layout = layout;
    }

    /// <summary>Where the next page's directory begins; 0 after the last.</summary>
    internal long Next { get; private set; }

    internal static TiffDirectory Read(HeaderBytes bytes, TiffLayout layout, long offset)
    {
        var directory = new TiffDirectory(bytes, layout);
        ulong count = layout.IsBig ? layout.Number(bytes.At(offset, 8), 8) : layout.Number(bytes.At(offset, 2), 2);
        if (count is 0 or > MostEntries)
            throw bytes.Damaged(FormattableString.Invariant($"its TIFF directory claims {count} entries"));
        long at = offset + layout.CountBytes;
        for (ulong entry = 0; entry < count; entry++, at += layout.EntryBytes)
        {
            ReadOnlySpan<byte> fields = bytes.At(at, layout.EntryBytes);
            int tag = (int)layout.Number(fields, 2);
            int type = (int)layout.Number(fields[2..], 2);
            ulong values = layout.Number(fields[4..], layout.OffsetBytes);
            int inside = 4 + layout.OffsetBytes;
            bool fits = values <= MostValues && values * (ulong)Size(type) <= (ulong)layout.OffsetBytes;
            long where = fits ? at + inside : (long)layout.Number(fields[inside..], layout.OffsetBytes);
            directory.entries.TryAdd(tag, (type, values, where));
        }

        directory.Next = (long)layout.Number(bytes.At(at, layout.OffsetBytes), layout.OffsetBytes);
        return directory;
    }

    internal bool Has(int tag) => entries.ContainsKey(tag);

    /// <summary>The first number of a tag, or a default where the tag is absent.</summary>
    internal long Number(int tag, long absent) => entries.ContainsKey(tag) ? Numbers(tag)[0] : absent;

    /// <summary>All numbers of a tag; empty where it is absent.</summary>
    internal long[] Numbers(int tag)
    {
        if (!entries.TryGetValue(tag, out (int Type, ulong Count, long ValueOffset) entry))
            return [];
        int size = Size(entry.Type);
        if (size == 0 || entry.Count is 0 or > MostValues)
            throw bytes.Damaged(FormattableString.Invariant($"its TIFF tag {tag} claims {entry.Count} values of type {entry.Type}"));
        ReadOnlySpan<byte> raw = bytes.At(entry.ValueOffset, checked((int)entry.Count * size));
        long[] numbers = new long[entry.Count];
        for (int i = 0; i < numbers.Length; i++)
            numbers[i] = (long)layout.Number(raw[(i * size)..], size);
        return numbers;
    }

    // Unsigned whole numbers only: BYTE, SHORT, LONG, and LONG8 and IFD8 of BigTIFF.
    private static int Size(int type) => type switch { 1 => 1, 3 => 2, 4 => 4, 16 or 18 => 8, _ => 0 };
}
