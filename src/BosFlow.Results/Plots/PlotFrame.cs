namespace BosFlow.Results.Plots;

/// <summary>What surrounds the curves of a plot.</summary>
/// <param name="XLabel">Quantity and unit along the bottom.</param>
/// <param name="YLabel">Quantity and unit along the side.</param>
internal sealed record PlotFrame(string XLabel, string YLabel)
{
    /// <summary>Text above the curves; empty for none.</summary>
    public string Title { get; init; } = string.Empty;

    /// <summary>Whether the ordinate begins at zero.</summary>
    public bool FromZero { get; init; }

    /// <summary>Width, px.</summary>
    public int Width { get; init; } = 1100;

    /// <summary>Height, px.</summary>
    public int Height { get; init; } = 400;
}
