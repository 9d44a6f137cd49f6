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
    /// <param name="isLost">Which of these gaps are too wide to know what lies in them; null = none.</param>
    public SlopeProfile(NodeCombination[] samples, bool[] isBridged, bool[]? isLost = null)
    {
        this.samples = samples;
        IsBridged = isBridged;
        IsLost = isLost ?? new bool[samples.Length];
    }

    /// <summary>Number of samples; fewer than 2 where nothing could be reached.</summary>
    public int Count => samples.Length;

    /// <summary>Which samples stand in a gap and were interpolated between its ends.</summary>
    public bool[] IsBridged { get; }

    /// <summary>Which samples stand in a gap too wide to know what lies in it: a profile cannot be told there, nor further in.</summary>
    public bool[] IsLost { get; }

    public NodeCombination this[int sample] => samples[sample];

    /// <summary>The mean of both sides where both are measured, else the one that is.</summary>
    public static SlopeProfile Mean(SlopeProfile right, SlopeProfile left)
    {
        int count = Math.Max(right.Count, left.Count);
        var samples = new NodeCombination[count];
        bool[] isBridged = new bool[count];
        bool[] isLost = new bool[count];
        for (int i = 0; i < count; i++)
        {
            // Where one side is measured and the other only bridged, the measured one is better alone.
            int difference = right.Doubt(i) - left.Doubt(i);
            samples[i] = difference < 0 ? right[i] : difference > 0 ? left[i] : NodeCombination.Sum(right[i], 0.5, left[i], 0.5);
            SlopeProfile better = difference <= 0 ? right : left;
            isBridged[i] = better.IsBridged[i];
            isLost[i] = better.IsLost[i];
        }

        return new SlopeProfile(samples, isBridged, isLost);
    }

    /// <summary>Right minus left, as far as both reach.</summary>
    public static SlopeProfile Difference(SlopeProfile right, SlopeProfile left)
    {
        int count = Math.Min(right.Count, left.Count);
        return new SlopeProfile(
            [.. Enumerable.Range(0, count).Select(i => NodeCombination.Sum(right[i], 1, left[i], -1))],
            [.. Enumerable.Range(0, count).Select(i => right.IsBridged[i] || left.IsBridged[i])]);
    }

    // 0 = measured, 1 = bridged, 2 = lost, 3 = beyond its reach.
    private int Doubt(int sample) => sample >= Count ? 3 : IsLost[sample] ? 2 : IsBridged[sample] ? 1 : 0;

    /// <summary>Values of all samples.</summary>
    public double[] Values(double[] u, double[] v) => [.. samples.Select(sample => sample.Value(u, v))];
}
