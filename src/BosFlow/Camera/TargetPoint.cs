namespace BosFlow.Camera;

/// <summary>A point of a plane calibration target and where it is seen.</summary>
/// <param name="X">x on the target, m.</param>
/// <param name="Y">y on the target, m.</param>
/// <param name="Column">Column in the picture, px.</param>
/// <param name="Row">Row in the picture, px.</param>
public readonly record struct TargetPoint(double X, double Y, double Column, double Row);
