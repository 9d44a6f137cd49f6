using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Shapes of fiducials.</summary>
internal static class FiducialShapes
{
    /// <summary>The square that it takes with the white zone around it, on the board.</summary>
    public static BoardRectangle Zone(Fiducial fiducial, double quietZone)
    {
        double half = (fiducial.Side / 2) + quietZone;
        return new BoardRectangle(fiducial.X - half, fiducial.Y - half, 2 * half, 2 * half);
    }

    /// <summary>Outlines of the black areas of a fiducial on the paper.</summary>
    public static IReadOnlyList<IReadOnlyList<SheetPoint>> Outlines(Fiducial fiducial, SheetFrame frame)
    {
        double cell = fiducial.Side / FiducialCode.Cells;
        double left = fiducial.X - (fiducial.Side / 2);
        double top = fiducial.Y - (fiducial.Side / 2);
        return [.. FiducialOutline.Trace(FiducialCode.Cells, (row, column) => FiducialCode.IsBlack(fiducial.Id, row, column))
            .Select(outline => (IReadOnlyList<SheetPoint>)[.. outline.Select(corner => frame.Place(left + (corner.X * cell), top + (corner.Y * cell)))])];
    }
}
