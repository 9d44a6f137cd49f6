using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Samples a <see cref="FineSpline"/> along a row of displaced pixels, and the transpose of that: the hot kernels of the joint reference.</summary>
public static class FineSplineRows
{
    private const int Taps = 4;

    /// <summary>target[x] = picture(x + dx[x], y + dy[x]).</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="y">Row before displacement, px.</param>
    /// <param name="dx">Displacement to the right for each pixel of the row from x = 0, px; the position lies within -1 to Width.</param>
    /// <param name="dy">Displacement down, px; same length; the position lies within -1 to Height.</param>
    /// <param name="target">Grey levels; same length.</param>
    public static void Sample(FineSpline picture, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, Span<float> target)
    {
        ArgumentNullException.ThrowIfNull(picture);
        Check(picture, y, dx, dy, target.Length);
        SampleUnchecked(picture, y, dx, dy, target);
    }

    /// <summary><see cref="Sample"/> of positions that are known to lie within the picture.</summary>
    internal static void SampleUnchecked(FineSpline picture, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, Span<float> target)
    {
        ref float origin = ref MemoryMarshal.GetReference(picture.Coefficients);
        int x = 0, lanes = Vector<float>.Count;
        for (; x <= dx.Length - lanes; x += lanes)
        {
            if (!Lanes(dx[x..], dy[x..], out Place place))
            {
                SampleReference(picture, x, y, dx.Slice(x, lanes), dy.Slice(x, lanes), target[x..]);
                continue;
            }

            BSplineKernel.Cubic(place.AcrossT, out Vector<float> a0, out Vector<float> a1, out Vector<float> a2, out Vector<float> a3);
            BSplineKernel.Cubic(place.DownT, out Vector<float> b0, out Vector<float> b1, out Vector<float> b2, out Vector<float> b3);
            int c0 = Column(picture, x, place.Column), c1 = Column(picture, x, place.Column + 1), c2 = Column(picture, x, place.Column + 2), c3 = Column(picture, x, place.Column + 3);
            ref float row = ref Unsafe.Add(ref origin, ((2 * y) + place.Row) * picture.Stride);
            Vector<float> sum = b0 * Line(ref row);
            sum += b1 * Line(ref Unsafe.Add(ref row, picture.Stride));
            sum += b2 * Line(ref Unsafe.Add(ref row, 2 * picture.Stride));
            sum += b3 * Line(ref Unsafe.Add(ref row, 3 * picture.Stride));
            Vector<float> Line(ref float line) =>
                (a0 * Tap(ref line, c0)) + (a1 * Tap(ref line, c1)) + (a2 * Tap(ref line, c2)) + (a3 * Tap(ref line, c3));

            sum.CopyTo(target[x..]);
        }

        SampleReference(picture, x, y, dx[x..], dy[x..], target[x..]);
    }

    /// <summary>The plain definition of <see cref="Sample"/>, for the pixels from firstX on.</summary>
    internal static void SampleReference(FineSpline picture, int firstX, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, Span<float> target)
    {
        Span<float> across = stackalloc float[Taps], down = stackalloc float[Taps];
        for (int k = 0; k < dx.Length; k++)
        {
            int column = Weights(dx[k], across), row = Weights(dy[k], down);
            float sum = 0;
            for (int j = 0; j < Taps; j++)
            {
                float line = 0;
                for (int i = 0; i < Taps; i++)
                    line += across[i] * picture.Coefficients[(((2 * y) + row + j) * picture.Stride) + Column(picture, firstX + k, column + i)];
                sum += down[j] * line;
            }

            target[k] = sum;
        }
    }

    /// <summary>Adds to every coefficient what it weighs in each pixel of a row times the pixel's value: the transpose of <see cref="Sample"/>.</summary>
    /// <param name="picture">Gives the layout.</param>
    /// <param name="y">Row before displacement, px.</param>
    /// <param name="dx">Displacement to the right for each pixel of the row from x = 0, px.</param>
    /// <param name="dy">Displacement down, px.</param>
    /// <param name="values">A value for each pixel.</param>
    /// <param name="sums">Laid out as the coefficients.</param>
    /// <param name="firstRow">First row of coefficients that may be changed.</param>
    /// <param name="endRow">Row of coefficients after the last one that may be changed.</param>
    public static void Spread(
        FineSpline picture, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, ReadOnlySpan<float> values, Span<float> sums, int firstRow, int endRow)
    {
        ArgumentNullException.ThrowIfNull(picture);
        Check(picture, y, dx, dy, values.Length);
        SpreadUnchecked(picture, y, dx, dy, values, sums, firstRow, endRow);
    }

    /// <summary><see cref="Spread"/> from positions that are known to lie within the picture.</summary>
    internal static void SpreadUnchecked(
        FineSpline picture, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, ReadOnlySpan<float> values, Span<float> sums, int firstRow, int endRow)
    {
        ref float origin = ref MemoryMarshal.GetReference(sums);
        Span<Vector<float>> down = stackalloc Vector<float>[Taps];
        int x = 0, lanes = Vector<float>.Count;
        for (; x <= dx.Length - lanes; x += lanes)
        {
            if (!Lanes(dx[x..], dy[x..], out Place place))
            {
                SpreadReference(picture, x, y, dx.Slice(x, lanes), dy.Slice(x, lanes), values[x..], sums, firstRow, endRow);
                continue;
            }

            BSplineKernel.Cubic(place.AcrossT, out Vector<float> a0, out Vector<float> a1, out Vector<float> a2, out Vector<float> a3);
            BSplineKernel.Cubic(place.DownT, out down[0], out down[1], out down[2], out down[3]);
            int c0 = Column(picture, x, place.Column), c1 = Column(picture, x, place.Column + 1), c2 = Column(picture, x, place.Column + 2), c3 = Column(picture, x, place.Column + 3);
            Vector<float> value = new(values[x..]);
            for (int j = 0; j < Taps; j++)
            {
                int row = (2 * y) + place.Row + j;
                if (row < firstRow || row >= endRow)
                    continue;
                Vector<float> weighted = down[j] * value;
                ref float line = ref Unsafe.Add(ref origin, row * picture.Stride);
                Add(ref line, c0, a0 * weighted);
                Add(ref line, c1, a1 * weighted);
                Add(ref line, c2, a2 * weighted);
                Add(ref line, c3, a3 * weighted);
            }
        }

        SpreadReference(picture, x, y, dx[x..], dy[x..], values[x..], sums, firstRow, endRow);
    }

    /// <summary>The plain definition of <see cref="Spread"/>, for the pixels from firstX on.</summary>
    internal static void SpreadReference(
        FineSpline picture, int firstX, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, ReadOnlySpan<float> values, Span<float> sums, int firstRow, int endRow)
    {
        Span<float> across = stackalloc float[Taps], down = stackalloc float[Taps];
        for (int k = 0; k < dx.Length; k++)
        {
            int column = Weights(dx[k], across), first = (2 * y) + Weights(dy[k], down);
            for (int j = 0; j < Taps; j++)
            {
                if (first + j < firstRow || first + j >= endRow)
                    continue;
                for (int i = 0; i < Taps; i++)
                    sums[((first + j) * picture.Stride) + Column(picture, firstX + k, column + i)] += across[i] * (down[j] * values[k]);
            }
        }
    }

    // Place of the coefficient "offset" columns after that of pixel x, border included.
    private static int Column(FineSpline picture, int x, int offset) => x + (offset >> 1) + ((offset & 1) * picture.Plane);

    // First of the four coefficients around a displaced pixel, counted from the pixel's own place before the border.
    private static int Weights(float displacement, Span<float> weights)
    {
        float fine = 2 * displacement, whole = MathF.Floor(fine);
        BSplineKernel.Cubic(fine - whole, out weights[0], out weights[1], out weights[2], out weights[3]);
        return (int)whole - 1 + FineSpline.Border;
    }

    // False where the pixels of a vector do not share the whole part of their displacement.
    private static bool Lanes(ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, out Place place)
    {
        Vector<float> fineX = 2 * new Vector<float>(dx), fineY = 2 * new Vector<float>(dy);
        Vector<float> wholeX = Vector.Floor(fineX), wholeY = Vector.Floor(fineY);
        place = default;
        if (!Vector.EqualsAll(wholeX, new Vector<float>(wholeX[0])) || !Vector.EqualsAll(wholeY, new Vector<float>(wholeY[0])))
            return false;
        place = new Place(fineX - wholeX, fineY - wholeY, (int)wholeX[0] - 1 + FineSpline.Border, (int)wholeY[0] - 1 + FineSpline.Border);
        return true;
    }

    private static void Check(FineSpline picture, int y, ReadOnlySpan<float> dx, ReadOnlySpan<float> dy, int length)
    {
        if (dx.Length > picture.Width || dy.Length != dx.Length || length != dx.Length)
            throw new ArgumentException("dx, dy and the values need the same length, a row at most.");
        for (int x = 0; x < dx.Length; x++)
        {
            if (!(x + dx[x] >= -1 && x + dx[x] <= picture.Width && y + dy[x] >= -1 && y + dy[x] <= picture.Height))
                throw new ArgumentException(FormattableString.Invariant($"Pixel ({x}, {y}) is displaced by ({dx[x]}, {dy[x]}), out of the picture."), nameof(dx));
        }
    }

    private static Vector<float> Tap(ref float line, int column) => Vector.LoadUnsafe(ref Unsafe.Add(ref line, column));

    private static void Add(ref float line, int column, Vector<float> value)
    {
        ref float at = ref Unsafe.Add(ref line, column);
        (Vector.LoadUnsafe(ref at) + value).StoreUnsafe(ref at);
    }

    // Where the pixels of a vector lie between the coefficients, and the first coefficient of theirs.
    private readonly record struct Place(Vector<float> AcrossT, Vector<float> DownT, int Column, int Row);
}
