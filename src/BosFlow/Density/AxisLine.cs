namespace BosFlow.Density;

/// <summary>The axis of a round flow as seen on the picture: the straight line through two points, px of the reference (x to the right, y down).</summary>
/// <param name="X1">x of the first point, px.</param>
/// <param name="Y1">y of the first point, px.</param>
/// <param name="X2">x of the second point, px; the flow runs from the first point towards it.</param>
/// <param name="Y2">y of the second point, px.</param>
public sealed record AxisLine(double X1, double Y1, double X2, double Y2);
