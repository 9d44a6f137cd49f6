using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace BosFlow.Results.Boards;

/// <summary>Writes an 8-bit grey PNG of known resolution row by row, so that a picture larger than the memory can be written.</summary>
/// <remarks>Source: ISO/IEC 15948 (PNG, second edition), sections 5, 9, 11; the check sum is that of its annex D.</remarks>
internal sealed class GreyPngWriter : IDisposable
{
    private const int PartBytes = 1 << 18;
    private const byte FilterUp = 2;

    private static readonly byte[] Signature = [137, 80, 78, 71, 13, 10, 26, 10];
    private static readonly uint[] Remainders = MakeRemainders();

    private readonly Stream stream;
    private readonly MemoryStream packed = new();
    private readonly ZLibStream packing;
    private readonly byte[] previous;
    private readonly byte[] filtered;
    private readonly int height;
    private int rows;

    /// <summary>Writes what comes before the rows.</summary>
    /// <param name="stream">Receives the file; it stays its owner's.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="dpi">Pixels in an inch; stored in whole pixels in a metre.</param>
    /// <param name="title">Title, Latin letters.</param>
    public GreyPngWriter(Stream stream, int width, int height, double dpi, string title)
    {
        this.stream = stream;
        this.height = height;
        previous = new byte[width];
        filtered = new byte[width + 1];
        stream.Write(Signature);
        byte[] header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        header[8] = 8;
        Chunk("IHDR", header);
        byte[] resolution = new byte[9];
        int pixelsPerMetre = (int)Math.Round(dpi / 0.0254);
        BinaryPrimitives.WriteInt32BigEndian(resolution, pixelsPerMetre);
        BinaryPrimitives.WriteInt32BigEndian(resolution.AsSpan(4), pixelsPerMetre);
        resolution[8] = 1;
        Chunk("pHYs", resolution);
        Chunk("tEXt", Encoding.Latin1.GetBytes($"Title\0{title}"));
        packing = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true);
    }

    /// <summary>Writes the next row.</summary>
    /// <param name="row">Grey levels, as many as the picture is wide.</param>
    public void Row(ReadOnlySpan<byte> row)
    {
        // The difference to the row above: between and inside dots it is 0.
        filtered[0] = FilterUp;
        for (int x = 0; x < previous.Length; x++)
            filtered[x + 1] = (byte)(row[x] - previous[x]);
        row.CopyTo(previous);
        packing.Write(filtered);
        rows++;
        if (packed.Length >= PartBytes)
            HandOut();
    }

    /// <summary>Writes what comes after the rows.</summary>
    /// <exception cref="InvalidOperationException">Rows are missing.</exception>
    public void Finish()
    {
        if (rows != height)
            throw new InvalidOperationException($"{rows} of {height} rows were written.");
        packing.Dispose();
        HandOut();
        Chunk("IEND", []);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        packing.Dispose();
        packed.Dispose();
    }

    private static uint[] MakeRemainders()
    {
        uint[] remainders = new uint[256];
        for (uint i = 0; i < remainders.Length; i++)
        {
            uint value = i;
            for (int bit = 0; bit < 8; bit++)
                value = (value & 1) == 1 ? 0xEDB88320u ^ (value >> 1) : value >> 1;
            remainders[i] = value;
        }

        return remainders;
    }

    private static uint Add(uint check, ReadOnlySpan<byte> bytes)
    {
        foreach (byte value in bytes)
            check = Remainders[(check ^ value) & 0xFF] ^ (check >> 8);
        return check;
    }

    private void HandOut()
    {
        Chunk("IDAT", packed.GetBuffer().AsSpan(0, (int)packed.Length));
        packed.SetLength(0);
    }

    private void Chunk(string kind, ReadOnlySpan<byte> content)
    {
        Span<byte> number = stackalloc byte[4];
        byte[] name = Encoding.ASCII.GetBytes(kind);
        BinaryPrimitives.WriteInt32BigEndian(number, content.Length);
        stream.Write(number);
        stream.Write(name);
        stream.Write(content);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Add(Add(uint.MaxValue, name), content));
        stream.Write(number);
    }
}
