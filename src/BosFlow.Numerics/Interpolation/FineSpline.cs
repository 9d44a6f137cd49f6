namespace BosFlow.Numerics.Interpolation;

/// <summary>
/// A picture that is known more finely than its pixels: a cubic B-spline on a grid of half pixels. Pixel centres at integers, the first pixel is (0, 0).
/// </summary>
/// <remarks>
/// Coefficient (i, j) belongs to the position (i / 2, j / 2), i from 0 to 2 Width - 1, and <see cref="Border"/> more on each side. Even and odd columns of a row lie apart,
/// so that the coefficients which neighbouring pixels need are neighbours too.
/// </remarks>
public sealed class FineSpline
{
    /// <summary>Coefficients beyond the picture on each side; even.</summary>
    internal const int Border = 4;

    private readonly float[] coefficients;

    /// <summary>An empty surface: all coefficients are zero.</summary>
    /// <param name="width">Pixels in a row, at least 6.</param>
    /// <param name="height">Rows, at least 6.</param>
    public FineSpline(int width, int height)
        : this(width, height, null)
    {
    }

    /// <summary>A surface of other coefficients, which it shares with the caller.</summary>
    internal FineSpline(FineSpline layout, float[] coefficients)
        : this(layout.Width, layout.Height, coefficients)
    {
    }

    private FineSpline(int width, int height, float[]? coefficients)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 6);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 6);
        Width = width;
        Height = height;
        Plane = width + Border + System.Numerics.Vector<float>.Count;
        Rows = (2 * height) + (2 * Border);
        this.coefficients = coefficients ?? new float[checked(Rows * Stride)];
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Rows of pixels.</summary>
    public int Height { get; }

    /// <summary>Rows of coefficients.</summary>
    internal int Rows { get; }

    /// <summary>Floats from the even columns of a row of coefficients to its odd ones.</summary>
    internal int Plane { get; }

    /// <summary>Floats from one row of coefficients to the next.</summary>
    internal int Stride => 2 * Plane;

    /// <summary>Columns of coefficients of either parity.</summary>
    internal int HalfColumns => Width + Border;

    /// <summary>All coefficients: row after row, the even columns, then the odd ones.</summary>
    internal Span<float> Coefficients => coefficients;

    /// <summary>A finer picture that passes through the pixels of another, as smooth between them as a quintic B-spline.</summary>
    /// <param name="pixels">Grey levels, row-major, width * height, without NaN.</param>
    /// <param name="width">Pixels in a row, at least 6.</param>
    /// <param name="height">Rows, at least 6.</param>
    public static FineSpline Through(ReadOnlySpan<float> pixels, int width, int height)
    {
        var surface = new BSplineImage(pixels, width, height, 5);
        int columns = 2 * (width + Border), rows = 2 * (height + Border);
        float[] values = new float[columns * rows];
        for (int j = 0; j < rows; j++)
        {
            for (int i = 0; i < columns; i++)
                values[(j * columns) + i] = surface.Sample((i - Border) / 2.0, (j - Border) / 2.0);
        }

        BSplinePrefilter.RunAlongColumns(values, columns, rows, columns, 3);
        BSplinePrefilter.RunAlongRows(values, columns, rows, columns, 3);
        var fine = new FineSpline(width, height);
        for (int j = 0; j < rows; j++)
        {
            for (int i = 0; i < columns; i++)
                fine.coefficients[(j * fine.Stride) + ((i & 1) * fine.Plane) + (i >> 1)] = values[(j * columns) + i];
        }

        return fine;
    }

    /// <summary>A rectangle of the picture as a surface of its own.</summary>
    /// <param name="left">First column of pixels.</param>
    /// <param name="top">First row of pixels.</param>
    /// <param name="width">Pixels in a row, at least 6, within the picture.</param>
    /// <param name="height">Rows, at least 6, within the picture.</param>
    public FineSpline Part(int left, int top, int width, int height)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(left);
        ArgumentOutOfRangeException.ThrowIfNegative(top);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, Width - left);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, Height - top);
        var part = new FineSpline(width, height);
        for (int j = 0; j < part.Rows; j++)
        {
            for (int odd = 0; odd < 2; odd++)
                coefficients.AsSpan(((j + (2 * top)) * Stride) + (odd * Plane) + left, part.HalfColumns).CopyTo(part.coefficients.AsSpan((j * part.Stride) + (odd * part.Plane)));
        }

        return part;
    }

    /// <summary>Grey levels at the pixels, row-major.</summary>
    public float[] AtPixels()
    {
        float[] pixels = new float[Width * Height];
        float[] rest = new float[Width];
        for (int y = 0; y < Height; y++)
            FineSplineRows.Sample(this, y, rest, rest, pixels.AsSpan(y * Width, Width));
        return pixels;
    }
}
