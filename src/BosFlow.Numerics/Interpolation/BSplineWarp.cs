using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Samples a <see cref="BSplineImage"/> along one row that is displaced pixel by pixel: the hot kernel of image deformation.</summary>
public static class BSplineWarp
{
    /// <summary>Nearer to the border than this, px, the mirrored continuation of the picture shows in the interpolated grey level (by 8 % of its error at the border itself).</summary>
    public const float BorderMargin = 3;

    /// <summary>Deforms one row: target[x] = picture(x + u[x], y + v[x]).</summary>
    /// <param name="image">The picture.</param>
    /// <param name="y">Row before displacement, px.</param>
    /// <param name="u">Displacement to the right for each pixel of the row from x = 0, px; finite.</param>
    /// <param name="v">Displacement down, px; same length.</param>
    /// <param name="target">Grey levels, 0 where not inside; same length.</param>
    /// <param name="inside">1 where the position lies at least <see cref="BorderMargin"/> within the picture, else 0; same length.</param>
    public static void Row(BSplineImage image, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside) =>
        Row(image, 0, y, u, v, target, inside);

    /// <summary>Deforms part of a row: target[k] = picture(firstX + k + u[k], y + v[k]).</summary>
    /// <param name="image">The picture.</param>
    /// <param name="firstX">Column of the first pixel before displacement, px.</param>
    /// <param name="y">Row before displacement, px.</param>
    /// <param name="u">Displacement to the right, px; finite.</param>
    /// <param name="v">Displacement down, px; same length.</param>
    /// <param name="target">Grey levels, 0 where not inside; same length.</param>
    /// <param name="inside">1 where the position lies at least <see cref="BorderMargin"/> within the picture, else 0; same length.</param>
    public static void Row(BSplineImage image, int firstX, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside)
    {
        ArgumentNullException.ThrowIfNull(image);
        if (v.Length != u.Length || target.Length != u.Length || inside.Length != u.Length)
            throw new ArgumentException("u, v, target and inside need the same length.");
        int x = 0;
        int lanes = Vector<float>.Count;
        if (Vector.IsHardwareAccelerated)
        {
            for (; x <= u.Length - lanes; x += lanes)
                Block(image, firstX + x, y, u[x..], v[x..], target[x..], inside[x..]);
        }

        RowReference(image, firstX + x, y, u[x..], v[x..], target[x..], inside[x..]);
    }

    /// <summary>The plain definition of the deformation of a row, pixel by pixel.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="firstX">Column of the first pixel.</param>
    /// <param name="y">Row before displacement, px.</param>
    /// <param name="u">Displacement to the right, px.</param>
    /// <param name="v">Displacement down, px.</param>
    /// <param name="target">Grey levels, 0 where not inside.</param>
    /// <param name="inside">1 at least <see cref="BorderMargin"/> within the picture, else 0.</param>
    public static void RowReference(
        BSplineImage image, int firstX, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside)
    {
        ArgumentNullException.ThrowIfNull(image);
        float lastX = image.Width - 1, lastY = image.Height - 1;
        for (int k = 0; k < u.Length; k++)
        {
            float px = firstX + k + u[k], py = y + v[k];
            bool within = px >= BorderMargin && px <= lastX - BorderMargin && py >= BorderMargin && py <= lastY - BorderMargin;
            inside[k] = within ? 1 : 0;
            float ix = MathF.Floor(px), iy = MathF.Floor(py);
            target[k] = within ? SampleScalar(image.Coefficients, image.Stride, (int)ix, (int)iy, px - ix, py - iy, image.Order) : 0;
        }
    }

    internal static float SampleScalar(ReadOnlySpan<float> coefficients, int stride, int ix, int iy, float tx, float ty, int order)
    {
        int start = ((iy + BSplineImage.Border) * stride) + ix + BSplineImage.Border;
        if (order == 3)
        {
            BSplineKernel.Cubic(tx, out float a0, out float a1, out float a2, out float a3);
            BSplineKernel.Cubic(ty, out float b0, out float b1, out float b2, out float b3);
            float r0 = Row4(coefficients.Slice(start - stride - 1, 4), a0, a1, a2, a3);
            float r1 = Row4(coefficients.Slice(start - 1, 4), a0, a1, a2, a3);
            float r2 = Row4(coefficients.Slice(start + stride - 1, 4), a0, a1, a2, a3);
            float r3 = Row4(coefficients.Slice(start + (2 * stride) - 1, 4), a0, a1, a2, a3);
            return (r0 * b0) + (r1 * b1) + (r2 * b2) + (r3 * b3);
        }

        BSplineKernel.Quintic(tx, out float w0, out float w1, out float w2, out float w3, out float w4, out float w5);
        BSplineKernel.Quintic(ty, out float h0, out float h1, out float h2, out float h3, out float h4, out float h5);
        float sum = Row6(coefficients.Slice(start - (2 * stride) - 2, 6), w0, w1, w2, w3, w4, w5) * h0;
        sum += Row6(coefficients.Slice(start - stride - 2, 6), w0, w1, w2, w3, w4, w5) * h1;
        sum += Row6(coefficients.Slice(start - 2, 6), w0, w1, w2, w3, w4, w5) * h2;
        sum += Row6(coefficients.Slice(start + stride - 2, 6), w0, w1, w2, w3, w4, w5) * h3;
        sum += Row6(coefficients.Slice(start + (2 * stride) - 2, 6), w0, w1, w2, w3, w4, w5) * h4;
        sum += Row6(coefficients.Slice(start + (3 * stride) - 2, 6), w0, w1, w2, w3, w4, w5) * h5;
        return sum;
    }

    private static float Row4(ReadOnlySpan<float> c, float w0, float w1, float w2, float w3) =>
        (c[0] * w0) + (c[1] * w1) + (c[2] * w2) + (c[3] * w3);

    private static float Row6(ReadOnlySpan<float> c, float w0, float w1, float w2, float w3, float w4, float w5) =>
        (c[0] * w0) + (c[1] * w1) + (c[2] * w2) + (c[3] * w3) + (c[4] * w4) + (c[5] * w5);

    // Neighbouring pixels nearly always share the whole-pixel part of the displacement, so the taps of all lanes are contiguous loads. Where a lane differs, the block
    // is computed once for each distinct whole-pixel displacement within the picture; the other lanes, computed along and dropped, read within the border's room.
    private static void Block(BSplineImage image, int x, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside)
    {
        Vector<float> column = Vector.CreateSequence<float>(x, 1);
        Vector<float> px = column + new Vector<float>(u), py = new Vector<float>(y) + new Vector<float>(v);
        var margin = new Vector<float>(BorderMargin);
        Vector<int> within = Vector.GreaterThanOrEqual(px, margin) & Vector.LessThanOrEqual(px, new Vector<float>(image.Width - 1 - BorderMargin))
            & Vector.GreaterThanOrEqual(py, margin) & Vector.LessThanOrEqual(py, new Vector<float>(image.Height - 1 - BorderMargin));
        Vector.ConditionalSelect(within, Vector<float>.One, Vector<float>.Zero).CopyTo(inside);
        Vector<float> floorX = Vector.Floor(px), floorY = Vector.Floor(py);
        Vector<float> tx = px - floorX, ty = py - floorY;
        Vector<int> shift = Vector.ConvertToInt32(floorX - column) + (Vector.ConvertToInt32(floorY) * image.Stride);
        ref float origin = ref Unsafe.Add(ref MemoryMarshal.GetReference(image.Coefficients), (BSplineImage.Border * image.Stride) + BSplineImage.Border + x);
        bool cubic = image.Order == 3;
        Vector<int> pending = within;
        Vector<float> result = Vector<float>.Zero;
        for (int lane = 0; !Vector.EqualsAll(pending, Vector<int>.Zero); lane++)
        {
            if (pending[lane] == 0)
                continue;
            Vector<int> same = Vector.Equals(shift, new Vector<int>(shift[lane])) & pending;
            ref float here = ref Unsafe.Add(ref origin, shift[lane]);
            Vector<float> values = cubic ? Cubic(ref here, image.Stride, tx, ty) : Quintic(ref here, image.Stride, tx, ty);
            result = Vector.ConditionalSelect(same, values, result);
            pending = Vector.AndNot(pending, same);
        }

        result.CopyTo(target);
    }

    private static Vector<float> Cubic(ref float here, int stride, Vector<float> tx, Vector<float> ty)
    {
        BSplineKernel.Cubic(tx, out Vector<float> a0, out Vector<float> a1, out Vector<float> a2, out Vector<float> a3);
        BSplineKernel.Cubic(ty, out Vector<float> b0, out Vector<float> b1, out Vector<float> b2, out Vector<float> b3);
        return (Taps4(ref here, -stride, a0, a1, a2, a3) * b0) + (Taps4(ref here, 0, a0, a1, a2, a3) * b1)
            + (Taps4(ref here, stride, a0, a1, a2, a3) * b2) + (Taps4(ref here, 2 * stride, a0, a1, a2, a3) * b3);
    }

    private static Vector<float> Quintic(ref float here, int stride, Vector<float> tx, Vector<float> ty)
    {
        BSplineKernel.Quintic(tx, out Vector<float> w0, out Vector<float> w1, out Vector<float> w2, out Vector<float> w3, out Vector<float> w4, out Vector<float> w5);
        BSplineKernel.Quintic(ty, out Vector<float> h0, out Vector<float> h1, out Vector<float> h2, out Vector<float> h3, out Vector<float> h4, out Vector<float> h5);
        Vector<float> sum = Taps6(ref here, -2 * stride, w0, w1, w2, w3, w4, w5) * h0;
        sum += Taps6(ref here, -stride, w0, w1, w2, w3, w4, w5) * h1;
        sum += Taps6(ref here, 0, w0, w1, w2, w3, w4, w5) * h2;
        sum += Taps6(ref here, stride, w0, w1, w2, w3, w4, w5) * h3;
        sum += Taps6(ref here, 2 * stride, w0, w1, w2, w3, w4, w5) * h4;
        sum += Taps6(ref here, 3 * stride, w0, w1, w2, w3, w4, w5) * h5;
        return sum;
    }

    private static Vector<float> Taps4(ref float here, int row, Vector<float> w0, Vector<float> w1, Vector<float> w2, Vector<float> w3) =>
        (Tap(ref here, row - 1) * w0) + (Tap(ref here, row) * w1) + (Tap(ref here, row + 1) * w2) + (Tap(ref here, row + 2) * w3);

    private static Vector<float> Taps6(
        ref float here, int row, Vector<float> w0, Vector<float> w1, Vector<float> w2, Vector<float> w3, Vector<float> w4, Vector<float> w5) =>
        (Tap(ref here, row - 2) * w0) + (Tap(ref here, row - 1) * w1) + (Tap(ref here, row) * w2)
        + (Tap(ref here, row + 1) * w3) + (Tap(ref here, row + 2) * w4) + (Tap(ref here, row + 3) * w5);

    private static Vector<float> Tap(ref float here, int offset) =>
        Vector.LoadUnsafe(ref Unsafe.Add(ref here, offset));
}
