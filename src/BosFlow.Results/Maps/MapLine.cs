namespace BosFlow.Results.Maps;

/// <summary>A thin line over a map.</summary>
/// <param name="X1">x of its start, px of the picture.</param>
/// <param name="Y1">y of its start, px.</param>
/// <param name="X2">x of its end, px.</param>
/// <param name="Y2">y of its end, px.</param>
/// <param name="Label">Text beyond its end; empty for none.</param>
public sealed record MapLine(double X1, double Y1, double X2, double Y2, string Label = "");
