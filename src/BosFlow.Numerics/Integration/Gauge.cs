namespace BosFlow.Numerics.Integration;

/// <summary>Sets the constant of parts without a known value: their weighted mean is 0.</summary>
internal sealed class Gauge
{
    private readonly Parts parts;
    private readonly double[] share;

    /// <summary>Shares of the nodes in their part's mean: in proportion to the weights of their equations.</summary>
    public Gauge(Parts parts, double[] weightX, double[] weightY, int columns)
    {
        this.parts = parts;
        share = new double[weightX.Length];
        double[] total = new double[parts.IsAnchored.Length];
        for (int i = 0; i < share.Length; i++)
        {
            int part = parts.Part[i];
            if (part < 0 || parts.IsAnchored[part])
                continue;
            share[i] = weightX[i] + weightY[i] + (i > 0 ? weightX[i - 1] : 0) + (i >= columns ? weightY[i - columns] : 0);
            total[part] += share[i];
        }

        for (int i = 0; i < share.Length; i++)
        {
            if (share[i] > 0)
                share[i] /= total[parts.Part[i]];
        }
    }

    /// <summary>Share of each node in its part's mean; 0 in anchored parts.</summary>
    public ReadOnlySpan<double> Share => share;

    /// <summary>Subtracts each part's mean from its values, in place.</summary>
    public void Apply(double[] values)
    {
        double[] mean = new double[parts.IsAnchored.Length];
        for (int i = 0; i < share.Length; i++)
        {
            if (share[i] > 0)
                mean[parts.Part[i]] += share[i] * values[i];
        }

        for (int i = 0; i < share.Length; i++)
        {
            if (share[i] > 0)
                values[i] -= mean[parts.Part[i]];
        }
    }
}
