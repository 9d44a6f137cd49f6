using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Divides a board into patches: each fiducial into its quarters, the pattern between them into squares of dots.</summary>
internal static class BoardPatches
{
    // Dots that make a patch one of its kind: two random ones agree by chance to 1 / 6.
    private const double DotsInPatch = 36;
    private const double LeastPixels = 32;
    private const double LargestPixels = 160;
    private const int MostInPicture = 400;

    /// <summary>The quarters of the fiducials, each with its part of the white zone.</summary>
    public static IEnumerable<BoardPatch> OfFiducials(Board board)
    {
        for (int i = 0; i < board.Fiducials.Count; i++)
        {
            Fiducial mark = board.Fiducials[i];
            double half = ((mark.Side / 2) + (board.FiducialQuietZone / 2)) / 2;
            foreach ((int x, int y) in new[] { (-1, -1), (1, -1), (1, 1), (-1, 1) })
                yield return new BoardPatch(mark.X + (x * half), mark.Y + (y * half), half, x, y, i);
        }
    }

    /// <summary>Squares of dots that do not touch a fiducial's white zone or the pattern's edge.</summary>
    /// <param name="board">The board with its dots.</param>
    /// <param name="pixelsPerMetre">Scale of the picture, px/m.</param>
    /// <param name="pictureArea">Area of the picture, px2.</param>
    public static IEnumerable<BoardPatch> OfDots(Board board, double pixelsPerMetre, double pictureArea)
    {
        if (board.Dots.Count == 0)
            yield break;
        double side = Math.Clamp(Math.Sqrt(DotsInPatch * board.Pattern.Area / board.Dots.Count) * pixelsPerMetre, LeastPixels, LargestPixels) / pixelsPerMetre;
        double pitch = Math.Max(side, Math.Sqrt(pictureArea / MostInPicture) / pixelsPerMetre);
        double rim = board.Settings.Sizes[^1].DiameterMetres;
        double zone = board.Fiducials.Count == 0 ? 0 : (board.Fiducials[0].Side / 2) + board.FiducialQuietZone;
        for (double y = board.Pattern.Top + rim + (side / 2); y + (side / 2) + rim <= board.Pattern.Bottom; y += pitch)
        {
            double x = board.Pattern.Left + rim + (side / 2);
            while (x + (side / 2) + rim <= board.Pattern.Right)
            {
                double far = zone + (side / 2);
                bool isFree = !board.Fiducials.Any(mark => Math.Abs(mark.X - x) < far && Math.Abs(mark.Y - y) < far);
                if (isFree)
                    yield return new BoardPatch(x, y, side / 2, 0, 0, -1);
                x += isFree ? pitch : side / 4;
            }
        }
    }
}
