using System.Runtime.InteropServices;

namespace BosFlow.Footage;

/// <summary>
/// A grey picture: 32-bit floats, row-major, in digital numbers of the source. x to the right, y down,
/// pixel centres at integers, the first pixel is (0, 0). NaN marks a pixel that was not recorded.
/// </summary>
/// <remarks>
/// Immutable to its readers until it is given back to its footage (<see cref="IFootage.GiveBack"/>): whoever made the array gives it up. Thread-safe to read. Codes of 8 bits are kept as they are, a quarter of the memory; they become floats as a whole when
/// <see cref="Pixels"/> is first asked for, and row by row with <see cref="Levels"/>.
/// </remarks>
public sealed class GrayImage
{
    private readonly byte[]? codes;
    private float[]? pixels;

    /// <summary>Wraps an array that the caller gives up.</summary>
    /// <param name="width">Pixels in a row, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    /// <param name="pixels">Row-major grey levels, length exactly width * height; owned by the picture from now on.</param>
    /// <param name="whiteLevel">Grey level at which the source saturates (255, 1023, 65535; 235 for limited-range 8-bit video); NaN where the source has none, as in float TIFF.</param>
    /// <exception cref="ArgumentException">The length of <paramref name="pixels"/> is not width * height.</exception>
    public GrayImage(int width, int height, float[] pixels, float whiteLevel)
        : this(width, height, whiteLevel, pixels?.Length ?? throw new ArgumentNullException(nameof(pixels))) => this.pixels = pixels;

    /// <summary>Wraps codes of 8 bits that the caller gives up.</summary>
    /// <param name="width">Pixels in a row, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    /// <param name="codes">Row-major grey levels, length exactly width * height; owned by the picture from now on.</param>
    /// <param name="whiteLevel">Grey level at which the source saturates, 255 or 235 for limited-range video.</param>
    /// <exception cref="ArgumentException">The length of <paramref name="codes"/> is not width * height.</exception>
    public GrayImage(int width, int height, byte[] codes, float whiteLevel)
        : this(width, height, whiteLevel, codes?.Length ?? throw new ArgumentNullException(nameof(codes))) => this.codes = codes;

    private GrayImage(int width, int height, float whiteLevel, int length)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        if (length != checked(width * height))
            throw new ArgumentException($"{length} pixels given for {width} x {height}.");
        Width = width;
        Height = height;
        WhiteLevel = whiteLevel;
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>Grey level at which the source saturates, in digital numbers; NaN where it has none.</summary>
    public float WhiteLevel { get; }

    /// <summary>Whether grey levels are stored as codes of 8 bits, so that <see cref="Levels"/> needs room.</summary>
    public bool HasCodes => codes is not null;

    /// <summary>The codes themselves, for <see cref="PictureStock"/>; null where levels are stored.</summary>
    internal byte[]? CodeMemory => codes;

    /// <summary>The levels themselves, for <see cref="PictureStock"/>; null where codes are stored and nobody asked for all levels.</summary>
    internal float[]? LevelMemory => pixels;

    /// <summary>All grey levels, row after row, without gaps.</summary>
    public ReadOnlySpan<float> Pixels => Volatile.Read(ref pixels) ?? Widened();

    /// <summary>Some grey levels, in digital numbers, without making all of them floats.</summary>
    /// <param name="first">Place of the first: y * Width + x.</param>
    /// <param name="count">How many, row after row.</param>
    /// <param name="room">Where they are put if the picture has codes, at least as long.</param>
    /// <returns>They themselves, or the room.</returns>
    public ReadOnlySpan<float> Levels(int first, int count, Span<float> room)
    {
        if (codes is null)
            return pixels.AsSpan(first, count);
        ByteLevels.Widen(codes.AsSpan(first, count), room[..count]);
        return room[..count];
    }

    /// <summary>Grey level at a pixel, in digital numbers.</summary>
    /// <param name="x">Column, 0 to Width - 1.</param>
    /// <param name="y">Row, 0 to Height - 1.</param>
    public float this[int x, int y] => codes is null ? pixels![(y * Width) + x] : codes[(y * Width) + x];

    /// <summary>One row of grey levels.</summary>
    /// <param name="y">Row, 0 to Height - 1.</param>
    public ReadOnlySpan<float> Row(int y) => Pixels.Slice(y * Width, Width);

    /// <summary>Whether another picture of the same size has the same grey levels.</summary>
    /// <param name="other">The other picture.</param>
    public bool HasLevelsOf(GrayImage other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return codes is not null && other.codes is not null
            ? codes.AsSpan().SequenceEqual(other.codes)
            : MemoryMarshal.AsBytes(Pixels).SequenceEqual(MemoryMarshal.AsBytes(other.Pixels));
    }

    // Two threads may do it at once, and get the same.
    private float[] Widened()
    {
        float[] levels = GC.AllocateUninitializedArray<float>(codes!.Length);
        ByteLevels.Widen(codes, levels);
        return Interlocked.CompareExchange(ref pixels, levels, null) ?? levels;
    }
}
