using System.Runtime.CompilerServices;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Quintic B-spline: 6 x 6 coefficients.</summary>
internal readonly struct QuinticTaps : ISplineTaps
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Sample<T>(ref float origin, nint place, nint stride, T tx, T ty)
        where T : struct, ILanes<T>
    {
        Weights(tx, out T w0, out T w1, out T w2, out T w3, out T w4, out T w5);
        Weights(ty, out T h0, out T h1, out T h2, out T h3, out T h4, out T h5);
        T sum = Row(ref origin, place - (2 * stride), w0, w1, w2, w3, w4, w5) * h0;
        sum = T.MultiplyAdd(Row(ref origin, place - stride, w0, w1, w2, w3, w4, w5), h1, sum);
        sum = T.MultiplyAdd(Row(ref origin, place, w0, w1, w2, w3, w4, w5), h2, sum);
        sum = T.MultiplyAdd(Row(ref origin, place + stride, w0, w1, w2, w3, w4, w5), h3, sum);
        sum = T.MultiplyAdd(Row(ref origin, place + (2 * stride), w0, w1, w2, w3, w4, w5), h4, sum);
        return T.MultiplyAdd(Row(ref origin, place + (3 * stride), w0, w1, w2, w3, w4, w5), h5, sum);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Row<T>(ref float origin, nint place, T w0, T w1, T w2, T w3, T w4, T w5)
        where T : struct, ILanes<T>
    {
        T sum = T.MultiplyAdd(T.Load(ref origin, place - 2), w0, T.Load(ref origin, place - 1) * w1);
        sum = T.MultiplyAdd(T.Load(ref origin, place), w2, sum);
        sum = T.MultiplyAdd(T.Load(ref origin, place + 1), w3, sum);
        sum = T.MultiplyAdd(T.Load(ref origin, place + 2), w4, sum);
        return T.MultiplyAdd(T.Load(ref origin, place + 3), w5, sum);
    }

    // The formulas of BSplineKernel.Quintic.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Weights<T>(T t, out T w0, out T w1, out T w2, out T w3, out T w4, out T w5)
        where T : struct, ILanes<T>
    {
        T one = T.Of(1), scale = T.Of(1f / 120);
        T s = one - t, t2 = t * t;
        T s2 = s * s;
        w0 = s2 * s2 * (s * scale);
        w5 = t2 * t2 * (t * scale);
        w2 = Inner(t, t2);
        w3 = Inner(s, s2);
        T outer = T.MultiplyAdd(t, T.MultiplyAdd(t, T.Of(5f / 120), T.Of(-20f / 120)), T.Of(20f / 120));
        w1 = T.MultiplyAdd(t, T.MultiplyAdd(t, T.MultiplyAdd(t, outer, T.Of(20f / 120)), T.Of(-50f / 120)), T.Of(26f / 120));
        w4 = one - w0 - w1 - w2 - w3 - w5;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Inner<T>(T t, T t2)
        where T : struct, ILanes<T> =>
        T.MultiplyAdd(t2, T.MultiplyAdd(t2, T.MultiplyAdd(t, T.Of(-10f / 120), T.Of(30f / 120)), T.Of(-60f / 120)), T.Of(66f / 120));
}
