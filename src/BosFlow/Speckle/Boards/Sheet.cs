namespace BosFlow.Speckle.Boards;

/// <summary>One sheet of paper and the part of the board on it.</summary>
/// <param name="Column">Column in the assembled board, from 0 at the left.</param>
/// <param name="Row">Row in the assembled board, from 0 at the top.</param>
/// <param name="Net">Part of the board that this sheet shows when assembled (cut along its crop marks), board coordinates.</param>
/// <param name="Printed">Part of the board that is printed on it: <paramref name="Net"/> and the overlap to the right and below, board coordinates.</param>
/// <param name="OffsetX">Where the left edge of <paramref name="Printed"/> lies on the sheet, m from the sheet's left edge.</param>
/// <param name="OffsetY">Where the upper edge of <paramref name="Printed"/> lies on the sheet, m from the sheet's upper edge.</param>
public sealed record Sheet(int Column, int Row, BoardRectangle Net, BoardRectangle Printed, double OffsetX, double OffsetY)
{
    /// <summary>Its number in words: letters for the row, a number for the column, as on a map: A1, B12, after Z1 comes AA1.</summary>
    public string Name => FormattableString.Invariant($"{Letters(Row)}{Column + 1}");

    private static string Letters(int row) =>
        row < 26 ? ((char)('A' + row)).ToString() : Letters((row / 26) - 1) + Letters(row % 26);
}
