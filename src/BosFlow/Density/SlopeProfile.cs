namespace BosFlow.Density;

/// <summary>
/// The slope of a slice's projection at equal steps from the axis outward, each sample a linear combination of the displacement at the nodes, so that
/// errors can be propagated. Positive where the index grows outward.
/// </summary>
internal sealed class SlopeProfile
{
    private readonly NodeCombination[] samples;

    /// <summary>Takes samples without a gap.</summary>
    /// <param name="samples">From the axis outward.</param>
    /// <param name="isBridged">Which of them were interpolated over a gap.</param>
    public SlopeProfile(NodeCombination[] samples, bool[] isBridged)
    {
        this.samples = samples;
        IsBridged = isBridged;
    }

    /// <summary>Number of samples; fewer than 2 where nothing could be reached.</summary>
    public int Count => samples.Length;

    /// <summary>Which samples stand in a gap and were interpolated between its ends.</summary>
    public bool[] IsBridged { get; }

    public NodeCombination this[int sample] => samples[sample];

    /// <summary>The mean of both sides where both are measured, else the one that is.</summary>
    public static SlopeProfile Mean(SlopeProfile right, SlopeProfile left)
    {
        int count = Math.Max(right.Count, left.Count);
        var samples = new NodeCombination[count];
        bool[] isBridged = new bool[count];
        for (int i = 0; i < count; i++)
        {
            bool both = i < right.Count && i < left.Count;
            // Where one side is measured and the other only bridged, the measured one is better alone.
            bool onlyRight = i >= left.Count || (both && left.IsBridged[i] && !right.IsBridged[i]);
            bool onlyLeft = i >= right.Count || (both && right.IsBridged[i] && !left.IsBridged[i]);
            samples[i] = onlyRight ? right[i] : onlyLeft ? left[i] : NodeCombination.Sum(right[i], 0.5, left[i], 0.5);
            isBridged[i] = onlyRight ? right.IsBridged[i] : onlyLeft ? left.IsBridged[i] : right.IsBridged[i];
        }

        return new SlopeProfile(samples, isBridged);
    }

    /// <summary>Right minus left, as far as both reach.</summary>
    public static SlopeProfile Difference(SlopeProfile right, SlopeProfile left)
    {
        int count = Math.Min(right.Count, left.Count);
        return new SlopeProfile(
            [.. Enumerable.Range(0, count).Select(i => NodeCombination.Sum(right[i], 1, left[i], -1))],
            [.. Enumerable.Range(0, count).Select(i => right.IsBridged[i] || left.IsBridged[i])]);
    }

    /// <summary>Values of all samples.</summary>
    public double[] Values(double[] u, double[] v) => [.. samples.Select(sample => sample.Value(u, v))];
}
