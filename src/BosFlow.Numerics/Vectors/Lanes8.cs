using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Numerics.Vectors;

/// <summary>256 bits: 8 floats.</summary>
internal readonly struct Lanes8(Vector256<float> value) : ILanes<Lanes8>
{
    private readonly Vector256<float> value = value;

    public static int Count => 8;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator +(Lanes8 left, Lanes8 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator -(Lanes8 left, Lanes8 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator *(Lanes8 left, Lanes8 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Of(float value) => new(Vector256.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Load(ref float origin, nint place) => new(Vector256.LoadUnsafe(ref Unsafe.Add(ref origin, place)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Load(ref short origin, nint place) =>
        new(Vector256.ConvertToSingle(Vector256.WidenLower(Vector128.LoadUnsafe(ref Unsafe.Add(ref origin, place)).ToVector256Unsafe())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 MultiplyAdd(Lanes8 a, Lanes8 b, Lanes8 c) => new(Vector256.MultiplyAddEstimate(a.value, b.value, c.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Floor(Lanes8 value) => new(Vector256.Floor(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Absolute(Lanes8 value) => new(Vector256.Abs(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 SelectGreater(Lanes8 left, Lanes8 right, Lanes8 whenGreater, Lanes8 otherwise) =>
        new(Vector256.ConditionalSelect(Vector256.GreaterThan(left.value, right.value), whenGreater.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllEqual(Lanes8 left, Lanes8 right) => left.value == right.value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 SelectEqual(Lanes8 left1, Lanes8 right1, Lanes8 left2, Lanes8 right2, Lanes8 whenEqual, Lanes8 otherwise) =>
        new(Vector256.ConditionalSelect(Vector256.Equals(left1.value, right1.value) & Vector256.Equals(left2.value, right2.value), whenEqual.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint EqualLanes(Lanes8 left1, Lanes8 right1, Lanes8 left2, Lanes8 right2) =>
        (Vector256.Equals(left1.value, right1.value) & Vector256.Equals(left2.value, right2.value)).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public float At(int lane) => value.GetElement(lane);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref float origin, nint place) => value.StoreUnsafe(ref Unsafe.Add(ref origin, place));
}
