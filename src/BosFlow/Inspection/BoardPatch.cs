namespace BosFlow.Inspection;

/// <summary>A square part of a board that is looked for in a picture as a whole.</summary>
/// <param name="X">x of its centre on the board, m.</param>
/// <param name="Y">y of its centre, m.</param>
/// <param name="HalfSide">Half its side, m.</param>
/// <param name="OutwardX">-1 or 1 for the left or right half of a fiducial, whose outer edge moves as ink runs; 0 for dots.</param>
/// <param name="OutwardY">The same for the upper or lower half.</param>
/// <param name="Fiducial">Place of its fiducial in the board's list; -1 for dots.</param>
internal readonly record struct BoardPatch(double X, double Y, double HalfSide, int OutwardX, int OutwardY, int Fiducial)
{
    /// <summary>Whether it shows dots.</summary>
    public bool IsDots => Fiducial < 0;
}
