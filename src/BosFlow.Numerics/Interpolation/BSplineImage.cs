using System.Buffers;

namespace BosFlow.Numerics.Interpolation;

/// <summary>
/// A picture as a B-spline surface that passes through its grey levels: samples between pixels without resampling twice.
/// Pixel centres at integers; beyond the border the picture is mirrored about its outermost pixels.
/// </summary>
/// <remarks>Immutable after <see cref="Load"/>; several threads may sample one object.</remarks>
public sealed class BSplineImage
{
    // Room for the widest support (three pixels beyond a position on the border) plus one vector of lanes on the right.
    internal const int Border = 4;

    /// <summary>Rows of a part of <see cref="Filter"/>: with the rows beyond that it needs, of 4K pictures, about as much as a second-level cache holds.</summary>
    public const int RowsPerPart = 64;

    private float[] coefficients = [];

    /// <summary>Prepares an empty surface; <see cref="Load"/> fills it, again and again without new memory.</summary>
    /// <param name="order">3 (cubic) or 5 (quintic).</param>
    public BSplineImage(int order)
    {
        BSplineKernel.Poles(order);
        Order = order;
    }

    /// <summary>Prepares a surface from a picture.</summary>
    /// <param name="pixels">Grey levels, row-major, width * height, without NaN.</param>
    /// <param name="width">Pixels in a row, at least 2.</param>
    /// <param name="height">Rows, at least 2.</param>
    /// <param name="order">3 (cubic) or 5 (quintic).</param>
    public BSplineImage(ReadOnlySpan<float> pixels, int width, int height, int order)
        : this(order) => Load(pixels, width, height);

    /// <summary>3 (cubic) or 5 (quintic).</summary>
    public int Order { get; }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; private set; }

    /// <summary>Rows.</summary>
    public int Height { get; private set; }

    /// <summary>Floats from one row of coefficients to the next.</summary>
    internal int Stride { get; private set; }

    /// <summary>Coefficients with their mirrored border; pixel (x, y) is at (y + Border) * Stride + x + Border.</summary>
    internal ReadOnlySpan<float> Coefficients => coefficients;

    /// <summary>Takes another picture; not while another thread samples.</summary>
    /// <param name="pixels">Grey levels, row-major, width * height, without NaN.</param>
    /// <param name="width">Pixels in a row, at least 6.</param>
    /// <param name="height">Rows, at least 6.</param>
    public void Load(ReadOnlySpan<float> pixels, int width, int height)
    {
        if (pixels.Length != checked(width * height))
            throw new ArgumentException($"{pixels.Length} pixels given for {width} x {height}.", nameof(pixels));
        Reserve(width, height);
        for (int part = 0; part < Parts; part++)
            Filter(part, pixels);
        Finish();
    }

    /// <summary>Parts into which <see cref="Filter"/> divides the picture.</summary>
    public int Parts => (Height + RowsPerPart - 1) / RowsPerPart;

    /// <summary>Makes room for a picture, so that several threads can load it: all parts of <see cref="Filter"/>, then <see cref="Finish"/>.</summary>
    /// <param name="width">Pixels in a row, at least 6.</param>
    /// <param name="height">Rows, at least 6.</param>
    public void Reserve(int width, int height)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 6);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 6);
        Width = width;
        Height = height;
        Stride = width + (2 * Border) + System.Numerics.Vector<float>.Count;
        int needed = checked(Stride * (height + (2 * Border)));
        if (coefficients.Length != needed)
            coefficients = new float[needed];
    }

    /// <summary>Rows of the picture that <see cref="FilterRows"/> needs for a part: its own, and some beyond.</summary>
    /// <param name="part">0 to Parts - 1.</param>
    public (int First, int Count) RowsFor(int part)
    {
        int beyond = BSplinePrefilter.RowsBeyond(Order), first = Math.Max(0, (part * RowsPerPart) - beyond);
        return (first, Math.Min(Height, ((part + 1) * RowsPerPart) + beyond) - first);
    }

    /// <summary>Computes the coefficients of one part of the picture.</summary>
    /// <param name="part">0 to Parts - 1.</param>
    /// <param name="pixels">Grey levels of the whole picture, row-major, without NaN.</param>
    public void Filter(int part, ReadOnlySpan<float> pixels)
    {
        (int first, int count) = RowsFor(part);
        float[] work = ArrayPool<float>.Shared.Rent(count * Width);
        FilterRows(part, pixels.Slice(first * Width, count * Width), work);
        ArrayPool<float>.Shared.Return(work);
    }

    /// <summary>Computes the coefficients of one part of the picture.</summary>
    /// <param name="part">0 to Parts - 1.</param>
    /// <param name="rows">Grey levels of the rows of <see cref="RowsFor"/>, without NaN.</param>
    /// <param name="work">Working memory, at least as long; may be the rows themselves.</param>
    public void FilterRows(int part, ReadOnlySpan<float> rows, Span<float> work)
    {
        int first = part * RowsPerPart, count = Math.Min(RowsPerPart, Height - first), above = first - RowsFor(part).First;
        BSplinePrefilter.Band(rows, work[..rows.Length], Width, above, count, coefficients.AsSpan(((first + Border) * Stride) + Border), Stride, Order);
        for (int y = first; y < first + count; y++)
        {
            Span<float> row = coefficients.AsSpan((y + Border) * Stride, Stride);
            for (int k = 1; k <= Border; k++)
            {
                row[Border - k] = row[Border + k];
                row[Border + Width - 1 + k] = row[Border + Width - 1 - k];
            }
        }
    }

    /// <summary>Mirrors the picture at its upper and lower border.</summary>
    public void Finish()
    {
        for (int k = 1; k <= Border; k++)
        {
            coefficients.AsSpan((Border + k) * Stride, Stride).CopyTo(coefficients.AsSpan((Border - k) * Stride, Stride));
            coefficients.AsSpan((Border + Height - 1 - k) * Stride, Stride).CopyTo(coefficients.AsSpan((Border + Height - 1 + k) * Stride, Stride));
        }
    }

    /// <summary>Grey level at any position.</summary>
    /// <param name="x">Column, px; positions outside the picture are moved to its border.</param>
    /// <param name="y">Row, px.</param>
    /// <returns>Interpolated grey level; NaN for a NaN position.</returns>
    public float Sample(double x, double y)
    {
        if (double.IsNaN(x) || double.IsNaN(y))
            return float.NaN;
        float px = (float)Math.Clamp(x, 0, Width - 1), py = (float)Math.Clamp(y, 0, Height - 1);
        int ix = (int)px, iy = (int)py;
        return BSplineWarp.SampleScalar(coefficients, Stride, ix, iy, px - ix, py - iy, Order);
    }
}
