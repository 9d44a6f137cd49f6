using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Draws fiducials with their white zones.</summary>
internal static class FiducialDrawing
{
    /// <summary>Draws one fiducial.</summary>
    public static void Draw(IDrawingSurface surface, Fiducial fiducial, double quietZone, SheetFrame frame)
    {
        double half = (fiducial.Side / 2) + quietZone;
        surface.Fill(frame.Place(new BoardRectangle(fiducial.X - half, fiducial.Y - half, 2 * half, 2 * half)), BoardGreys.White);
        surface.Shape(Outlines(fiducial, frame), BoardGreys.Black);
    }

    /// <summary>Outlines of its black areas on the paper.</summary>
    public static IReadOnlyList<IReadOnlyList<SheetPoint>> Outlines(Fiducial fiducial, SheetFrame frame)
    {
        double cell = fiducial.Side / FiducialCode.Cells;
        double left = fiducial.X - (fiducial.Side / 2);
        double top = fiducial.Y - (fiducial.Side / 2);
        return [.. FiducialOutline.Trace(FiducialCode.Cells, (row, column) => FiducialCode.IsBlack(fiducial.Id, row, column))
            .Select(outline => (IReadOnlyList<SheetPoint>)[.. outline.Select(corner => frame.Place(left + (corner.X * cell), top + (corner.Y * cell)))])];
    }
}
