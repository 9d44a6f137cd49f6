namespace BosFlow.Registration;

/// <summary>Shift of one tile between reference and frame.</summary>
/// <param name="X">Column of the tile's centre in the reference, px.</param>
/// <param name="Y">Row of the tile's centre, px.</param>
/// <param name="U">Displacement to the right, px.</param>
/// <param name="V">Displacement down, px.</param>
internal readonly record struct TileShift(double X, double Y, double U, double V);
