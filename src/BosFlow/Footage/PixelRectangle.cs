namespace BosFlow.Footage;

/// <summary>A rectangle of whole pixels.</summary>
/// <param name="X">First column.</param>
/// <param name="Y">First row.</param>
/// <param name="Width">Columns, at least 1.</param>
/// <param name="Height">Rows, at least 1.</param>
public sealed record PixelRectangle(int X, int Y, int Width, int Height);
