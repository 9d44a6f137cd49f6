using System.Runtime.CompilerServices;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Cubic B-spline: 4 x 4 coefficients.</summary>
internal readonly struct CubicTaps : ISplineTaps
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Sample<T>(ref float origin, nint place, nint stride, T tx, T ty)
        where T : struct, ILanes<T>
    {
        Weights(tx, out T a0, out T a1, out T a2, out T a3);
        T above = Row(ref origin, place - stride, a0, a1, a2, a3);
        T here = Row(ref origin, place, a0, a1, a2, a3);
        T below = Row(ref origin, place + stride, a0, a1, a2, a3);
        T lowest = Row(ref origin, place + (2 * stride), a0, a1, a2, a3);
        Weights(ty, out T b0, out T b1, out T b2, out T b3);
        return T.MultiplyAdd(lowest, b3, T.MultiplyAdd(below, b2, T.MultiplyAdd(here, b1, above * b0)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Row<T>(ref float origin, nint place, T w0, T w1, T w2, T w3)
        where T : struct, ILanes<T> =>
        T.MultiplyAdd(
            T.Load(ref origin, place - 1), w0,
            T.MultiplyAdd(T.Load(ref origin, place), w1, T.MultiplyAdd(T.Load(ref origin, place + 1), w2, T.Load(ref origin, place + 2) * w3)));

    // The formulas of BSplineKernel.Cubic.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Weights<T>(T t, out T w0, out T w1, out T w2, out T w3)
        where T : struct, ILanes<T>
    {
        T one = T.Of(1), sixth = T.Of(1f / 6);
        T s = one - t, t2 = t * t;
        w0 = s * s * (s * sixth);
        w3 = t2 * (t * sixth);
        w1 = T.MultiplyAdd(t2, T.MultiplyAdd(t, T.Of(0.5f), T.Of(-1)), T.Of(2f / 3));
        w2 = one - w0 - w1 - w3;
    }
}
