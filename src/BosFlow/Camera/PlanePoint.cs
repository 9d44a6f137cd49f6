namespace BosFlow.Camera;

/// <summary>A corner of a printed square and where it is seen.</summary>
/// <param name="X">x on the plane, m.</param>
/// <param name="Y">y on the plane, m.</param>
/// <param name="OutwardX">-1 for a left corner of its square, 1 for a right one: where ink that runs moves it.</param>
/// <param name="OutwardY">-1 for an upper corner of its square, 1 for a lower one.</param>
/// <param name="Column">Column in the picture, px.</param>
/// <param name="Row">Row in the picture, px.</param>
public readonly record struct PlanePoint(double X, double Y, double OutwardX, double OutwardY, double Column, double Row);
