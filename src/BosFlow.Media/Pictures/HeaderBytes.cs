namespace BosFlow.Media.Pictures;

/// <summary>Bytes of a file's header by their offset; a header that ends too early is the user's to hear of.</summary>
internal sealed class HeaderBytes(Stream stream, string name, string format)
{
    private byte[] buffer = new byte[64];

    /// <summary>Length of the file, bytes.</summary>
    internal long Length { get; } = stream.Length;

    /// <summary>How messages call the file.</summary>
    internal string Name => name;

    /// <summary>Bytes at an offset; valid until the next call.</summary>
    /// <exception cref="InputDataException">The file ends before them.</exception>
    internal ReadOnlySpan<byte> At(long offset, int count)
    {
        // Checked before the buffer grows: a damaged count must not take memory the file could never fill.
        if (offset < 0 || count < 0 || offset > Length - count)
            throw Truncated();
        if (buffer.Length < count)
            buffer = new byte[count];
        stream.Position = offset;
        if (stream.ReadAtLeast(buffer.AsSpan(0, count), count, throwOnEndOfStream: false) < count)
            throw Truncated();
        return buffer.AsSpan(0, count);
    }

    /// <summary>The header ends before the file does what it says.</summary>
    internal InputDataException Truncated() =>
        new($"{name} is truncated: the {format} file ends inside its header; copy it again from the camera or leave it out.");

    /// <summary>The header holds something no such file may hold.</summary>
    internal InputDataException Damaged(string what) =>
        new($"{name} is damaged: {what}; copy or save it again, or leave it out.");

    /// <summary>The header asks for something that is not read.</summary>
    internal InputDataException Unsupported(string what) => new($"{name} {what}; save it as 8- or 16-bit grey PNG or TIFF.");
}
