namespace BosFlow.Numerics.Interpolation;

/// <summary>Where a sample beyond the ends of a line is taken from when the line is mirrored at its first and its last sample, which are not repeated: whole-sample symmetry.</summary>
public static class MirroredIndex
{
    /// <summary>Index of the sample that stands for another one: 2 1 0 1 2 3 2 1 0 1 ... from -2 on for a length of 4.</summary>
    /// <param name="index">Any number.</param>
    /// <param name="length">Samples of the line, at least 2.</param>
    /// <returns>0 to length - 1.</returns>
    public static int Of(int index, int length)
    {
        int folded = Math.Abs(index), period = (2 * length) - 2;
        if (folded < length)
            return folded;
        folded %= period;
        return folded < length ? folded : period - folded;
    }
}
