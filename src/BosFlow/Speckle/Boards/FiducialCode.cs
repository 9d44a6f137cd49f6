namespace BosFlow.Speckle.Boards;

/// <summary>The black and white cells of the fiducials: the open family ARUCO_MIP_36h12, 6 x 6 cells within a black border of one cell.</summary>
/// <remarks>
/// Two marks, each turned by any quarter, differ in at least 12 of their 36 cells, so that up to 5 misread cells can be put right.
/// Source: S. Garrido-Jurado et al. 2016, Pattern Recognition 51:481 (from memory).
/// </remarks>
public static class FiducialCode
{
    /// <summary>Name of the family, as general-purpose vision libraries know it.</summary>
    public const string Family = "ARUCO_MIP_36h12";

    /// <summary>Cells along a side, with the black border.</summary>
    public const int Cells = 8;

    /// <summary>Least number of cells in which two marks differ, in whatever quarter turns.</summary>
    public const int LeastDistance = 12;

    /// <summary>Number of identities, from 0.</summary>
    public static int Count => FiducialCodeTable.Codes.Length;

    /// <summary>Whether a cell is black.</summary>
    /// <param name="id">Identity, 0 to <see cref="Count"/> - 1.</param>
    /// <param name="row">Row of the cell, from 0 at the top, to 7; 0 and 7 are the border.</param>
    /// <param name="column">Column of the cell, from 0 at the left, to 7; 0 and 7 are the border.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such identity or cell.</exception>
    public static bool IsBlack(int id, int row, int column)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(id);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(id, Count);
        ArgumentOutOfRangeException.ThrowIfNegative(row);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(row, Cells);
        ArgumentOutOfRangeException.ThrowIfNegative(column);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(column, Cells);
        if (row is 0 or Cells - 1 || column is 0 or Cells - 1)
            return true;
        const int inner = Cells - 2;
        int bit = (inner * inner) - 1 - (((row - 1) * inner) + column - 1);
        return ((FiducialCodeTable.Codes[id] >> bit) & 1) == 0;
    }
}
