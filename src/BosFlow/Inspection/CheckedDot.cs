namespace BosFlow.Inspection;

/// <summary>A dot that was looked for, for drawing.</summary>
/// <param name="X">Column, px.</param>
/// <param name="Y">Row, px.</param>
/// <param name="Radius">Radius by the description, px.</param>
/// <param name="IsFound">Whether it is there.</param>
public readonly record struct CheckedDot(float X, float Y, float Radius, bool IsFound);
