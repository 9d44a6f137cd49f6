using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Numerics.Vectors;

/// <summary>128 bits: 4 floats.</summary>
internal readonly struct Lanes4(Vector128<float> value) : ILanes<Lanes4>
{
    private readonly Vector128<float> value = value;

    public static int Count => 4;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator +(Lanes4 left, Lanes4 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator -(Lanes4 left, Lanes4 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator *(Lanes4 left, Lanes4 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Of(float value) => new(Vector128.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Load(ref float origin, nint place) => new(Vector128.LoadUnsafe(ref Unsafe.Add(ref origin, place)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Load(ref short origin, nint place) =>
        new(Vector128.ConvertToSingle(Vector128.WidenLower(Vector64.LoadUnsafe(ref Unsafe.Add(ref origin, place)).ToVector128Unsafe())));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 MultiplyAdd(Lanes4 a, Lanes4 b, Lanes4 c) => new(Vector128.MultiplyAddEstimate(a.value, b.value, c.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Floor(Lanes4 value) => new(Vector128.Floor(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Absolute(Lanes4 value) => new(Vector128.Abs(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 SelectGreater(Lanes4 left, Lanes4 right, Lanes4 whenGreater, Lanes4 otherwise) =>
        new(Vector128.ConditionalSelect(Vector128.GreaterThan(left.value, right.value), whenGreater.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllEqual(Lanes4 left, Lanes4 right) => left.value == right.value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 SelectEqual(Lanes4 left1, Lanes4 right1, Lanes4 left2, Lanes4 right2, Lanes4 whenEqual, Lanes4 otherwise) =>
        new(Vector128.ConditionalSelect(Vector128.Equals(left1.value, right1.value) & Vector128.Equals(left2.value, right2.value), whenEqual.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint EqualLanes(Lanes4 left1, Lanes4 right1, Lanes4 left2, Lanes4 right2) =>
        (Vector128.Equals(left1.value, right1.value) & Vector128.Equals(left2.value, right2.value)).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public float At(int lane) => value.GetElement(lane);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(ref float origin, nint place) => value.StoreUnsafe(ref Unsafe.Add(ref origin, place));
}
