using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Numerics.Vectors;

/// <summary>512 bits: 16 floats.</summary>
internal readonly struct Lanes16(Vector512<float> value) : ILanes<Lanes16>
{
    private readonly Vector512<float> value = value;

    public static int Count => 16;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 operator +(Lanes16 left, Lanes16 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 operator -(Lanes16 left, Lanes16 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 operator *(Lanes16 left, Lanes16 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Of(float value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Load(ref float origin, nint place) => new(Vector512.LoadUnsafe(ref Unsafe.Add(ref origin, place)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Load(ref short origin, nint place) =>
        new(Vector512.ConvertToSingle(Vector512.WidenLower(Vector256.LoadUnsafe(ref Unsafe.Add(ref origin, place)).ToVector512Unsafe())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 MultiplyAdd(Lanes16 a, Lanes16 b, Lanes16 c) => new(Vector512.MultiplyAddEstimate(a.value, b.value, c.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Floor(Lanes16 value) => new(Vector512.Floor(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Absolute(Lanes16 value) => new(Vector512.Abs(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 SelectGreater(Lanes16 left, Lanes16 right, Lanes16 whenGreater, Lanes16 otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.GreaterThan(left.value, right.value), whenGreater.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllEqual(Lanes16 left, Lanes16 right) => left.value == right.value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 SelectEqual(Lanes16 left1, Lanes16 right1, Lanes16 left2, Lanes16 right2, Lanes16 whenEqual, Lanes16 otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.Equals(left1.value, right1.value) & Vector512.Equals(left2.value, right2.value), whenEqual.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint EqualLanes(Lanes16 left1, Lanes16 right1, Lanes16 left2, Lanes16 right2) =>
        (uint)(Vector512.Equals(left1.value, right1.value) & Vector512.Equals(left2.value, right2.value)).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public float At(int lane) => value.GetElement(lane);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref float origin, nint place) => value.StoreUnsafe(ref Unsafe.Add(ref origin, place));
}
