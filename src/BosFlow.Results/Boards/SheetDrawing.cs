using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Draws one sheet of a board.</summary>
internal static class SheetDrawing
{
    /// <summary>The dots that a sheet shows.</summary>
    public static IReadOnlyList<DotClass> Dots(BoardPrint print, Sheet sheet)
    {
        SheetFrame frame = SheetFrame.Of(sheet);
        return DotClass.In(print.Board, frame, frame.Place(sheet.Printed));
    }

    /// <summary>Draws the sheet.</summary>
    /// <param name="surface">What it is drawn on.</param>
    /// <param name="print">Board and sheets.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="dots">The dots to draw, on the paper.</param>
    /// <param name="cancellationToken">Ends the drawing between its parts.</param>
    public static void Draw(IDrawingSurface surface, BoardPrint print, Sheet sheet, IReadOnlyList<DotClass> dots, CancellationToken cancellationToken)
    {
        SheetFrame frame = SheetFrame.Of(sheet);
        Board board = print.Board;
        surface.Clipped(frame.Place(sheet.Printed), () =>
        {
            byte ground = BoardGreys.Ground(board.Settings.Tones);
            if (ground != BoardGreys.White)
                surface.Shape(GroundOutline.Of(board, frame), ground);
            foreach (DotClass same in dots)
            {
                cancellationToken.ThrowIfCancellationRequested();
                surface.Discs(same.Centres, same.Diameter, BoardGreys.Dot(same.IsLight));
            }

            foreach (Fiducial fiducial in board.Fiducials)
                surface.Shape(FiducialShapes.Outlines(fiducial, frame), BoardGreys.Black);
            foreach (BoardRuler ruler in board.Rulers)
                RulerDrawing.Draw(surface, board, ruler, frame);
            LegendDrawing.Draw(surface, print, frame);
        });
        CropMarks.Draw(surface, print, sheet);
        if (print.IsTiled)
            SheetLabel.Draw(surface, print, sheet);
    }
}
