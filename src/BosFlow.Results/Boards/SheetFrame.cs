using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Where a sheet's part of the board lies on the paper.</summary>
internal readonly record struct SheetFrame(double ShiftX, double ShiftY)
{
    public static SheetFrame Of(Sheet sheet) => new(sheet.OffsetX - sheet.Printed.Left, sheet.OffsetY - sheet.Printed.Top);

    /// <summary>From the board to the paper.</summary>
    public SheetPoint Place(double x, double y) => new(x + ShiftX, y + ShiftY);

    /// <summary>From the board to the paper.</summary>
    public BoardRectangle Place(BoardRectangle area) => new(area.Left + ShiftX, area.Top + ShiftY, area.Width, area.Height);
}
