namespace BosFlow.Inspection;

/// <summary>A dot of the board as it should be seen in a photo.</summary>
/// <param name="Index">Its number on the board.</param>
/// <param name="X">Column of its centre, px.</param>
/// <param name="Y">Row of its centre, px.</param>
/// <param name="Radius">Radius of the disc of the same area, px.</param>
/// <param name="AreaScale">Area in the picture of a unit area there, px2/m2.</param>
internal readonly record struct SeenDot(int Index, double X, double Y, double Radius, double AreaScale);
