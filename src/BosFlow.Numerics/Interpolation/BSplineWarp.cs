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
    /// <param name="target">Grey levels; same length.</param>
    /// <param name="inside">1 where the position lies at least <see cref="BorderMargin"/> within the picture, else 0; same length.</param>
    public static void Row(BSplineImage image, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside) =>
        Row(image, 0, y, u, v, target, inside);

    /// <summary>Deforms part of a row: target[k] = picture(firstX + k + u[k], y + v[k]).</summary>
    /// <param name="image">The picture.</param>
    /// <param name="firstX">Column of the first pixel before displacement, px.</param>
    /// <param name="y">Row before displacement, px.</param>
    /// <param name="u">Displacement to the right, px; finite.</param>
    /// <param name="v">Displacement down, px; same length.</param>
    /// <param name="target">Grey levels; same length.</param>
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
    /// <param name="target">Grey levels.</param>
    /// <param name="inside">1 at least <see cref="BorderMargin"/> within the picture, else 0.</param>
    public static void RowReference(
        BSplineImage image, int firstX, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside)
    {
        ArgumentNullException.ThrowIfNull(image);
        float lastX = image.Width - 1, lastY = image.Height - 1;
        for (int k = 0; k < u.Length; k++)
        {
            float wantedX = firstX + k + u[k], wantedY = y + v[k];
            float px = MathF.Min(MathF.Max(wantedX, 0), lastX), py = MathF.Min(MathF.Max(wantedY, 0), lastY);
            bool within = wantedX >= BorderMargin && wantedX <= lastX - BorderMargin && wantedY >= BorderMargin && wantedY <= lastY - BorderMargin;
            inside[k] = within ? 1 : 0;
            float ix = MathF.Floor(px), iy = MathF.Floor(py);
            target[k] = SampleScalar(image.Coefficients, image.Stride, (int)ix, (int)iy, px - ix, py - iy, image.Order);
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

    // Neighbouring pixels nearly always share the whole-pixel part of the displacement, so the taps of all lanes are
    // contiguous loads. Where a lane differs, the block is computed once for each distinct whole-pixel displacement.
    private static void Block(BSplineImage image, int x, int y, ReadOnlySpan<float> u, ReadOnlySpan<float> v, Span<float> target, Span<float> inside)
    {
        int lanes = Vector<float>.Count;
        Vector<float> column = Vector.CreateSequence<float>(x, 1);
        Vector<float> wantedX = column + new Vector<float>(u);
        Vector<float> wantedY = new Vector<float>(y) + new Vector<float>(v);
        Vector<float> px = Vector.Min(Vector.Max(wantedX, Vector<float>.Zero), new Vector<float>(image.Width - 1));
        Vector<float> py = Vector.Min(Vector.Max(wantedY, Vector<float>.Zero), new Vector<float>(image.Height - 1));
        var margin = new Vector<float>(BorderMargin);
        Vector<int> within = Vector.GreaterThanOrEqual(wantedX, margin) & Vector.LessThanOrEqual(wantedX, new Vector<float>(image.Width - 1 - BorderMargin))
            & Vector.GreaterThanOrEqual(wantedY, margin) & Vector.LessThanOrEqual(wantedY, new Vector<float>(image.Height - 1 - BorderMargin));
        Vector.ConditionalSelect(within, Vector<float>.One, Vector<float>.Zero).CopyTo(inside);
        Vector<float> floorX = Vector.Floor(px), floorY = Vector.Floor(py);
        Vector<float> tx = px - floorX, ty = py - floorY;
        Vector<int> shift = Vector.ConvertToInt32(floorX - column) + (Vector.ConvertToInt32(floorY) * image.Stride);
        int first = shift[0];
        ref float origin = ref MemoryMarshal.GetReference(image.Coefficients);
        int start = (BSplineImage.Border * image.Stride) + BSplineImage.Border + x;
        bool cubic = image.Order == 3;
        if (Vector.EqualsAll(shift, new Vector<int>(first)))
        {
            ref float here = ref Unsafe.Add(ref origin, start + first);
            (cubic ? Cubic(ref here, image.Stride, tx, ty) : Quintic(ref here, image.Stride, tx, ty)).CopyTo(target);
            return;
        }

        Vector<int> pending = Vector<int>.AllBitsSet;
        Vector<float> result = Vector<float>.Zero;
        for (int lane = 0; lane < lanes; lane++)
        {
            if (pending[lane] == 0)
                continue;
            Vector<int> same = Vector.Equals(shift, new Vector<int>(shift[lane]));
            // Lanes with another displacement are computed too and dropped: keep their taps inside the array.
            int safe = start + shift[lane];
            int highest = image.Coefficients.Length - (4 * image.Stride) - (2 * lanes);
            if (safe < (2 * image.Stride) + 2 || safe > highest)
            {
                int ix = (int)floorX[lane], iy = (int)floorY[lane];
                float value = SampleScalar(image.Coefficients, image.Stride, ix, iy, tx[lane], ty[lane], image.Order);
                result = result.WithElement(lane, value);
                pending = pending.WithElement(lane, 0);
                continue;
            }

            ref float here = ref Unsafe.Add(ref origin, safe);
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
