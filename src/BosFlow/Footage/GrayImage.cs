namespace BosFlow.Footage;

/// <summary>
/// A grey picture: 32-bit floats, row-major, in digital numbers of the source. x to the right, y down,
/// pixel centres at integers, the first pixel is (0, 0). NaN marks a pixel that was not recorded.
/// </summary>
/// <remarks>Immutable to its readers: whoever made the array gives it up. Thread-safe to read.</remarks>
public sealed class GrayImage
{
    private readonly float[] pixels;

    /// <summary>Wraps an array that the caller gives up.</summary>
    /// <param name="width">Pixels in a row, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    /// <param name="pixels">Row-major grey levels, length exactly width * height; owned by the picture from now on.</param>
    /// <param name="whiteLevel">Grey level at which the source saturates (255, 1023, 65535; 235 for limited-range 8-bit video); NaN where the source has none, as in float TIFF.</param>
    /// <exception cref="ArgumentException">The length of <paramref name="pixels"/> is not width * height.</exception>
    public GrayImage(int width, int height, float[] pixels, float whiteLevel)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentNullException.ThrowIfNull(pixels);
        if (pixels.Length != checked(width * height))
            throw new ArgumentException($"{pixels.Length} pixels given for {width} x {height}.", nameof(pixels));
        Width = width;
        Height = height;
        WhiteLevel = whiteLevel;
        this.pixels = pixels;
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>Grey level at which the source saturates, in digital numbers; NaN where it has none.</summary>
    public float WhiteLevel { get; }

    /// <summary>All grey levels, row after row, without gaps.</summary>
    public ReadOnlySpan<float> Pixels => pixels;

    /// <summary>Grey level at a pixel, in digital numbers.</summary>
    /// <param name="x">Column, 0 to Width - 1.</param>
    /// <param name="y">Row, 0 to Height - 1.</param>
    public float this[int x, int y] => pixels[(y * Width) + x];

    /// <summary>One row of grey levels.</summary>
    /// <param name="y">Row, 0 to Height - 1.</param>
    public ReadOnlySpan<float> Row(int y) => pixels.AsSpan(y * Width, Width);
}
