namespace BosFlow.Results.Plots;

/// <summary>One curve of a plot.</summary>
/// <param name="Name">Its name in the legend; empty for none.</param>
/// <param name="X">Abscissa, ascending.</param>
/// <param name="Y">Ordinate; a NaN leaves a gap.</param>
internal sealed record PlotCurve(string Name, double[] X, double[] Y)
{
    /// <summary>The band about it; null for none.</summary>
    public PlotBand? Band { get; init; }

    /// <summary>Which of the plot's colours; curves with the same number look related.</summary>
    public int Colour { get; init; }

    /// <summary>How strongly it is drawn.</summary>
    public CurveWeight Weight { get; init; }
}
