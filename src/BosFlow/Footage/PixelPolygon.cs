namespace BosFlow.Footage;

/// <summary>A closed polygon, corners in px, x to the right and y down; at least three corners.</summary>
/// <param name="Corners">The corners in order; the last joins the first.</param>
public sealed record PixelPolygon(IReadOnlyList<(double X, double Y)> Corners);
