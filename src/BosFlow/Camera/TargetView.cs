namespace BosFlow.Camera;

/// <summary>A picture of a plane calibration target.</summary>
/// <param name="Source">The picture, as messages name it.</param>
/// <param name="Points">What was found of the target.</param>
public sealed record TargetView(string Source, IReadOnlyList<TargetPoint> Points);
