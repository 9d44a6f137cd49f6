using System.Runtime.CompilerServices;

namespace BosFlow.Numerics.Vectors;

/// <summary>One float: the plain twin of every kernel, and what runs on a processor without vectors.</summary>
internal readonly struct Lane1(float value) : ILanes<Lane1>
{
    private readonly float value = value;

    public static int Count => 1;

    public static Lane1 operator +(Lane1 left, Lane1 right) => new(left.value + right.value);

    public static Lane1 operator -(Lane1 left, Lane1 right) => new(left.value - right.value);

    public static Lane1 operator *(Lane1 left, Lane1 right) => new(left.value * right.value);

    public static Lane1 Of(float value) => new(value);

    public static Lane1 Load(ref float origin, nint place) => new(Unsafe.Add(ref origin, place));

    public static Lane1 Load(ref short origin, nint place) => new(Unsafe.Add(ref origin, place));

    public static Lane1 MultiplyAdd(Lane1 a, Lane1 b, Lane1 c) => new((a.value * b.value) + c.value);

    public static Lane1 Floor(Lane1 value) => new(MathF.Floor(value.value));

    public static Lane1 Absolute(Lane1 value) => new(MathF.Abs(value.value));

    public static Lane1 SelectGreater(Lane1 left, Lane1 right, Lane1 whenGreater, Lane1 otherwise) => left.value > right.value ? whenGreater : otherwise;

    public static bool AllEqual(Lane1 left, Lane1 right) => left.value == right.value;

    public static Lane1 SelectEqual(Lane1 left1, Lane1 right1, Lane1 left2, Lane1 right2, Lane1 whenEqual, Lane1 otherwise) =>
        left1.value == right1.value && left2.value == right2.value ? whenEqual : otherwise;

    public static uint EqualLanes(Lane1 left1, Lane1 right1, Lane1 left2, Lane1 right2) =>
        left1.value == right1.value && left2.value == right2.value ? 1u : 0u;

    public float At(int lane) => value;

    public void Store(ref float origin, nint place) => Unsafe.Add(ref origin, place) = value;
}
