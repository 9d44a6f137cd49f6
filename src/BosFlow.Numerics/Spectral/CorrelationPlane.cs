namespace BosFlow.Numerics.Spectral;

/// <summary>Circular correlation planes of several windows side by side: [y][x][lane], zero shift at (0, 0), negative shifts wrapped round to the end.</summary>
/// <param name="values">The values with padding behind each row.</param>
/// <param name="size">Side of a plane: a power of two.</param>
/// <param name="lanes">Windows side by side.</param>
/// <param name="rowStride">Values from one row to the next.</param>
internal readonly ref struct CorrelationPlane(ReadOnlySpan<float> values, int size, int lanes, int rowStride)
{
    private readonly ReadOnlySpan<float> values = values;

    /// <summary>Whether there is one window only, its values side by side.</summary>
    public bool IsSingle => lanes == 1;

    /// <summary>Values of one row from zero shift on, all lanes.</summary>
    public ReadOnlySpan<float> Row(int dy) => values.Slice((dy & (size - 1)) * rowStride, size * lanes);

    /// <summary>Place of a shift within a row.</summary>
    public int Place(int dx, int lane) => ((dx & (size - 1)) * lanes) + lane;

    /// <summary>One value.</summary>
    public float At(int dx, int dy, int lane) => Row(dy)[Place(dx, lane)];
}
