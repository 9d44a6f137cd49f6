namespace BosFlow.Camera;

/// <summary>A fiducial found in a picture.</summary>
/// <param name="Id">Its identity.</param>
/// <param name="Corners">Its four outer corners, px, clockwise as printed: upper left, upper right, lower right, lower left.</param>
public sealed record FiducialSighting(int Id, IReadOnlyList<(double X, double Y)> Corners);
