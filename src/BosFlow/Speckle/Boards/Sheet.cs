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
    /// <summary>Its number in words: a letter for the row, a number for the column, as on a map.</summary>
    public string Name => $"{(char)('A' + (Row % 26))}{(Row >= 26 ? (Row / 26).ToString(System.Globalization.CultureInfo.InvariantCulture) : string.Empty)}{Column + 1}";
}
