namespace BosFlow.Results.Plots;

/// <summary>A shaded band about a curve.</summary>
/// <param name="Low">Lower edge at each point of the curve; NaN leaves a gap.</param>
/// <param name="High">Upper edge.</param>
internal sealed record PlotBand(double[] Low, double[] High)
{
    /// <summary>Whether the plot's limits must show all of it; else a band that is far wider than the curves are high is cut.</summary>
    public bool IsWhole { get; init; }

    /// <summary>The band of one standard uncertainty to each side.</summary>
    public static PlotBand OfSigma(double[] values, double[] sigma) =>
        new([.. values.Zip(sigma, (value, s) => value - s)], [.. values.Zip(sigma, (value, s) => value + s)]);
}
