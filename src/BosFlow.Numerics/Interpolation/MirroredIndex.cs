namespace BosFlow.Numerics.Interpolation;

/// <summary>Places beyond the ends of a line that is continued by its mirror image about the first and the last sample (whole-sample symmetric).</summary>
public static class MirroredIndex
{
    /// <summary>The sample that stands at a place: ... 2 1 0 1 2 ... n-2 n-1 n-2 ...</summary>
    /// <param name="index">Place, at most length - 1 beyond either end.</param>
    /// <param name="length">Number of samples n, at least 1.</param>
    public static int Of(int index, int length) => index < 0 ? -index : index < length ? index : (2 * length) - 2 - index;
}
