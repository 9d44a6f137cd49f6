namespace BosFlow.Density;

/// <summary>The axis of an axisymmetric flow in the picture.</summary>
/// <param name="X">x of a point on it (the middle of its visible part), px.</param>
/// <param name="Y">y of that point, px.</param>
/// <param name="DirectionDegrees">Direction, degrees counter-clockwise as seen, -90 to 90 exclusive of -90 (an axis has no sense).</param>
/// <param name="SigmaAcrossPixels">Standard uncertainty of the position across the axis at that point, px; NaN where the axis was given.</param>
/// <param name="SigmaDirectionDegrees">Standard uncertainty of the direction, degrees; NaN where the axis was given.</param>
/// <param name="AsymmetryShare">RMS difference of the two mirrored sides over the RMS of the displacement, 0 to about 1.4.</param>
/// <param name="IsFound">Whether it was found from the symmetry of the displacement; false = given by the case.</param>
public sealed record AxisEstimate(
    double X, double Y, double DirectionDegrees, double SigmaAcrossPixels, double SigmaDirectionDegrees, double AsymmetryShare, bool IsFound);
