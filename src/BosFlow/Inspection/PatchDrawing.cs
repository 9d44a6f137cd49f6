using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Draws how a patch of a board should look in a picture: ink by its description, edges as soft as a pixel and some blur make them.</summary>
/// <remarks>
/// Every edge is drawn softened alike on both sides, so that another blur than the picture's changes how well the two agree, but not where they agree best.
/// </remarks>
internal sealed class PatchDrawing(Board board, DotsByPlace dots)
{
    // Half the width over which an edge fades, px.
    private const double Softness = 1.5;
    private const double Ink = -1;

    /// <summary>Draws a patch.</summary>
    /// <param name="view">From the board to the picture.</param>
    /// <param name="patch">The patch.</param>
    /// <param name="left">Column of the drawing's first pixel in the picture.</param>
    /// <param name="top">Row of its first pixel.</param>
    /// <param name="side">Its pixels along a side.</param>
    /// <returns>side x side, row-major; ground or paper 0, ink -1, light dots 1.</returns>
    public float[] Draw(BoardView view, BoardPatch patch, int left, int top, int side)
    {
        float[] drawing = new float[side * side];
        if (patch.IsDots)
            DrawDots(drawing, view, patch, left, top, side);
        else
            DrawFiducial(drawing, view, board.Fiducials[patch.Fiducial], patch, left, top, side);
        return drawing;
    }

    private void DrawDots(float[] drawing, BoardView view, BoardPatch patch, int left, int top, int side)
    {
        // The drawing is square in the picture and the patch is not: half as much again covers every turn and tilt.
        foreach (PrintedDot dot in dots.Near(patch.X, patch.Y, 1.5 * patch.HalfSide))
        {
            (double x, double y) = view.ToPicture(dot.X, dot.Y);
            double radius = board.Settings.Sizes[dot.Size].DiameterMetres / 2 * view.PixelsPerMetre(dot.X, dot.Y);
            double far = radius + Softness;
            int firstRow = Math.Max(0, (int)Math.Ceiling(y - far) - top);
            int lastRow = Math.Min(side - 1, (int)Math.Floor(y + far) - top);
            int firstColumn = Math.Max(0, (int)Math.Ceiling(x - far) - left);
            int lastColumn = Math.Min(side - 1, (int)Math.Floor(x + far) - left);
            for (int row = firstRow; row <= lastRow; row++)
            {
                for (int column = firstColumn; column <= lastColumn; column++)
                    drawing[(row * side) + column] += (float)((dot.IsLight ? -Ink : Ink) * Cover(radius - double.Hypot(left + column - x, top + row - y)));
            }
        }
    }

    private static void DrawFiducial(float[] drawing, BoardView view, Fiducial mark, BoardPatch patch, int left, int top, int side)
    {
        double cell = mark.Side / FiducialCode.Cells;
        double soft = 2 * Softness / view.PixelsPerMetre(patch.X, patch.Y);
        for (int row = 0; row < side; row++)
        {
            for (int column = 0; column < side; column++)
            {
                (double x, double y) = view.ToBoard(left + column, top + row);
                x += (mark.Side / 2) - mark.X;
                y += (mark.Side / 2) - mark.Y;
                drawing[(row * side) + column] = (float)(Ink * BlackShare(mark.Id, x / cell, y / cell, soft / cell));
            }
        }
    }

    // Mean over a square of the given width around a place, all in cells.
    private static double BlackShare(int id, double x, double y, double width)
    {
        double share = 0;
        for (int row = (int)Math.Floor(y - (width / 2)); row <= (int)Math.Floor(y + (width / 2)); row++)
        {
            for (int column = (int)Math.Floor(x - (width / 2)); column <= (int)Math.Floor(x + (width / 2)); column++)
            {
                bool isOnMark = row >= 0 && column >= 0 && row < FiducialCode.Cells && column < FiducialCode.Cells;
                if (isOnMark && FiducialCode.IsBlack(id, row, column))
                    share += Overlap(x, column, width) * Overlap(y, row, width);
            }
        }

        return share;
    }

    private static double Overlap(double middle, int cell, double width) =>
        Math.Max(0, Math.Min(middle + (width / 2), cell + 1) - Math.Max(middle - (width / 2), cell)) / width;

    private static double Cover(double depth)
    {
        double t = Math.Clamp((depth + Softness) / (2 * Softness), 0, 1);
        return t * t * (3 - (2 * t));
    }
}
