namespace BosFlow.Speckle.Boards;

/// <summary>A printed ruler: what a steel rule reads along it tells the printer's scale in that direction.</summary>
/// <param name="X">x of its zero mark, m.</param>
/// <param name="Y">y of its zero mark, m.</param>
/// <param name="Length">Nominal length from the first to the last mark, m; a multiple of 10 mm.</param>
/// <param name="IsVertical">Whether it runs down instead of to the right.</param>
public sealed record BoardRuler(double X, double Y, double Length, bool IsVertical);
