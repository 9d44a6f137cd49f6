using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Deforms a picture tile by tile and sums its products with a reference over the rows of each tile: the hot kernel of displacement measurement.</summary>
/// <remarks>
/// With e = G(x + u, y + v) - level - A, A the reference and (gx, gy) its derivatives, the five sums are e gx, e gy, e A, e and e^2, each over the rows of a tile and
/// for every column by itself. Displacements of neighbouring pixels nearly always share their whole part, so that the pixels around all lanes are neighbours in memory.
/// </remarks>
public static class TileProducts
{
    /// <summary>Number of sums.</summary>
    public const int Terms = 5;

    /// <summary>Tiles may be this high, px.</summary>
    public const int LargestRows = 32;

    /// <summary>Sums every tile that is marked.</summary>
    /// <param name="image">The frame.</param>
    /// <param name="row">The tiles.</param>
    /// <param name="sums">One entry a sum and column: [sum * 16 tiles + column]; those of unmarked tiles are left alone.</param>
    /// <exception cref="ArgumentException">A length does not fit.</exception>
    public static void Sum(BSplineImage image, TileRow row, Span<float> sums)
    {
        if (Vector512.IsHardwareAccelerated)
            Sum<Lanes16>(image, row, sums);
        else if (Vector256.IsHardwareAccelerated)
            Sum<Lanes8>(image, row, sums);
        else if (Vector128.IsHardwareAccelerated)
            Sum<Lanes4>(image, row, sums);
        else
            Sum<Lane1>(image, row, sums);
    }

    /// <summary>The same with vectors of a given width; one lane is the plain twin.</summary>
    internal static void Sum<T>(BSplineImage image, TileRow row, Span<float> sums)
        where T : struct, ILanes<T>
    {
        ArgumentNullException.ThrowIfNull(image);
        int tiles = row.Summed.Length, width = tiles * TileRow.Columns;
        if (row.Rows > LargestRows || sums.Length != Terms * width || row.Weights.Length != 4 * row.Rows || row.Reference.Length != 3 * width * row.Rows
            || row.U.Length < (3 * row.Stride) + row.X + width || row.V.Length < (3 * row.Stride) + row.X + width)
            throw new ArgumentException("Sums, weights, reference and displacement need the lengths that the row of tiles asks for.");
        Span<float> levels = stackalloc float[LargestRows * TileRow.Columns];
        for (int tile = 0; tile < tiles; tile++)
        {
            if (row.Summed[tile] == 0)
                continue;
            for (int x = tile * TileRow.Columns; x < (tile + 1) * TileRow.Columns; x += T.Count)
            {
                if (image.Order == 3)
                    SumColumns<T, CubicTaps>(image, row, x, levels, sums);
                else
                    SumColumns<T, QuinticTaps>(image, row, x, levels, sums);
            }
        }
    }

    // In three loops, so that what each needs stays in registers: grey levels where all lanes share their whole displacement, the few other rows, sums.
    private static void SumColumns<T, TTaps>(BSplineImage image, in TileRow row, int x, Span<float> levels, Span<float> sums)
        where T : struct, ILanes<T>
        where TTaps : struct, ISplineTaps
    {
        ref float u = ref Unsafe.Add(ref MemoryMarshal.GetReference(row.U), row.X + x);
        ref float v = ref Unsafe.Add(ref MemoryMarshal.GetReference(row.V), row.X + x);
        ref float coefficients = ref MemoryMarshal.GetReference(image.Coefficients);
        nint stride = image.Stride;
        nint place = ((row.Y + BSplineImage.Border) * stride) + row.X + x + BSplineImage.Border;
        ulong mixed = SampleRows<T, TTaps>(ref coefficients, place, stride, ref u, ref v, row, levels);
        for (; mixed != 0; mixed &= mixed - 1)
        {
            int y = BitOperations.TrailingZeroCount(mixed);
            ref float weight = ref Unsafe.AsRef(in row.Weights[4 * y]);
            Mixed<T, TTaps>(ref coefficients, place + (y * stride), stride, Displacement<T>(ref u, row.Stride, ref weight), Displacement<T>(ref v, row.Stride, ref weight))
                .Store(ref levels[y * T.Count], 0);
        }

        int reference = ((x / TileRow.Columns) * row.Rows * 3 * TileRow.Columns) + (x % TileRow.Columns);
        Multiply<T>(ref MemoryMarshal.GetReference(levels), ref Unsafe.AsRef(in row.Reference[reference]), row, ref sums[x], sums.Length / Terms);
    }

    // Returns a bit for every row that has to be sampled otherwise.
    private static ulong SampleRows<T, TTaps>(ref float coefficients, nint place, nint stride, ref float u, ref float v, in TileRow row, Span<float> levels)
        where T : struct, ILanes<T>
        where TTaps : struct, ISplineTaps
    {
        nint nodes = row.Stride;
        T u0 = T.Load(ref u, 0), u1 = T.Load(ref u, nodes), u2 = T.Load(ref u, 2 * nodes), u3 = T.Load(ref u, 3 * nodes);
        T v0 = T.Load(ref v, 0), v1 = T.Load(ref v, nodes), v2 = T.Load(ref v, 2 * nodes), v3 = T.Load(ref v, 3 * nodes);
        ref float weight = ref MemoryMarshal.GetReference(row.Weights);
        ref float target = ref MemoryMarshal.GetReference(levels);
        ulong mixed = 0;
        for (int y = 0; y < row.Rows; y++)
        {
            T w0 = T.Of(weight), w1 = T.Of(Unsafe.Add(ref weight, 1)), w2 = T.Of(Unsafe.Add(ref weight, 2)), w3 = T.Of(Unsafe.Add(ref weight, 3));
            T du = T.MultiplyAdd(u3, w3, T.MultiplyAdd(u2, w2, T.MultiplyAdd(u1, w1, u0 * w0)));
            T dv = T.MultiplyAdd(v3, w3, T.MultiplyAdd(v2, w2, T.MultiplyAdd(v1, w1, v0 * w0)));
            T wholeU = T.Floor(du), wholeV = T.Floor(dv);
            float firstU = wholeU.At(0), firstV = wholeV.At(0);
            if (T.AllEqual(wholeU, T.Of(firstU)) && T.AllEqual(wholeV, T.Of(firstV)))
                TTaps.Sample(ref coefficients, place + (Whole(firstV) * stride) + Whole(firstU), stride, du - wholeU, dv - wholeV).Store(ref target, 0);
            else
                mixed |= 1ul << y;
            weight = ref Unsafe.Add(ref weight, 4);
            target = ref Unsafe.Add(ref target, T.Count);
            place += stride;
        }

        return mixed;
    }

    private static void Multiply<T>(ref float level, ref short reference, in TileRow row, ref float target, nint width)
        where T : struct, ILanes<T>
    {
        T mean = T.Of(row.FrameLevel), step = T.Of(row.LevelStep), gradientStep = T.Of(row.GradientStep);
        T sumX = T.Of(0), sumY = T.Of(0), sumA = T.Of(0), sum = T.Of(0), square = T.Of(0);
        for (int y = 0; y < row.Rows; y++)
        {
            T a = T.Load(ref reference, 0) * step;
            T e = T.Load(ref level, 0) - mean - a;
            sumX = T.MultiplyAdd(e, T.Load(ref reference, TileRow.Columns), sumX);
            sumY = T.MultiplyAdd(e, T.Load(ref reference, 2 * TileRow.Columns), sumY);
            sumA = T.MultiplyAdd(e, a, sumA);
            sum += e;
            square = T.MultiplyAdd(e, e, square);
            level = ref Unsafe.Add(ref level, T.Count);
            reference = ref Unsafe.Add(ref reference, 3 * TileRow.Columns);
        }

        (sumX * gradientStep).Store(ref target, 0);
        (sumY * gradientStep).Store(ref target, width);
        sumA.Store(ref target, 2 * width);
        sum.Store(ref target, 3 * width);
        square.Store(ref target, 4 * width);
    }

    // Displacements are small: the plain conversion of the processor will do.
    private static nint Whole(float value) => float.ConvertToIntegerNative<int>(value);

    private static T Displacement<T>(ref float rows, nint stride, ref float weight)
        where T : struct, ILanes<T> =>
        T.MultiplyAdd(T.Load(ref rows, 3 * stride), T.Of(Unsafe.Add(ref weight, 3)), T.MultiplyAdd(T.Load(ref rows, 2 * stride), T.Of(Unsafe.Add(ref weight, 2)), T.MultiplyAdd(T.Load(ref rows, stride), T.Of(Unsafe.Add(ref weight, 1)), T.Load(ref rows, 0) * T.Of(weight))));

    // Once for every whole displacement that occurs; lanes that have another one are computed along and dropped.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static T Mixed<T, TTaps>(ref float coefficients, nint place, nint stride, T du, T dv)
        where T : struct, ILanes<T>
        where TTaps : struct, ISplineTaps
    {
        T wholeU = T.Floor(du), wholeV = T.Floor(dv);
        T tx = du - wholeU, ty = dv - wholeV;
        T result = T.Of(0);
        uint pending = uint.MaxValue >> (32 - T.Count);
        while (pending != 0)
        {
            int lane = BitOperations.TrailingZeroCount(pending);
            float laneU = wholeU.At(lane), laneV = wholeV.At(lane);
            T values = TTaps.Sample(ref coefficients, place + (Whole(laneV) * stride) + Whole(laneU), stride, tx, ty);
            result = T.SelectEqual(wholeU, T.Of(laneU), wholeV, T.Of(laneV), values, result);
            pending &= ~T.EqualLanes(wholeU, T.Of(laneU), wholeV, T.Of(laneV));
        }

        return result;
    }
}
