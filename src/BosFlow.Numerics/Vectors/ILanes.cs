namespace BosFlow.Numerics.Vectors;

/// <summary>
/// Several floats side by side that take the same steps: one text of a kernel serves vectors of 512, 256 and 128 bits, and a plain float of one lane.
/// </summary>
/// <typeparam name="T">The lanes themselves.</typeparam>
internal interface ILanes<T>
    where T : struct, ILanes<T>
{
    /// <summary>Number of floats side by side.</summary>
    static abstract int Count { get; }

    static abstract T operator +(T left, T right);

    static abstract T operator -(T left, T right);

    static abstract T operator *(T left, T right);

    /// <summary>The same value in every lane.</summary>
    static abstract T Of(float value);

    /// <summary>Reads Count neighbouring floats from a place; the caller keeps within its array.</summary>
    static abstract T Load(ref float origin, nint place);

    /// <summary>Reads Count neighbouring whole numbers of 16 bits from a place; the caller keeps within its array.</summary>
    static abstract T Load(ref short origin, nint place);

    /// <summary>a * b + c, fused where the processor can.</summary>
    static abstract T MultiplyAdd(T a, T b, T c);

    static abstract T Floor(T value);

    static abstract T Absolute(T value);

    /// <summary>In every lane: <paramref name="whenGreater"/> where left is greater than right, else <paramref name="otherwise"/>.</summary>
    static abstract T SelectGreater(T left, T right, T whenGreater, T otherwise);

    /// <summary>Whether all lanes are equal.</summary>
    static abstract bool AllEqual(T left, T right);

    /// <summary>In every lane: <paramref name="whenEqual"/> where both pairs are equal, else <paramref name="otherwise"/>.</summary>
    static abstract T SelectEqual(T left1, T right1, T left2, T right2, T whenEqual, T otherwise);

    /// <summary>A bit for every lane, the first lowest: set where both pairs are equal.</summary>
    static abstract uint EqualLanes(T left1, T right1, T left2, T right2);

    /// <summary>One lane.</summary>
    float At(int lane);

    /// <summary>Writes Count neighbouring floats; the caller keeps within its array.</summary>
    void Store(ref float origin, nint place);
}
