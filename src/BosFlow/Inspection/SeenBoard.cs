using BosFlow.Camera;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>What of a board lies in a photo: dots to look for, and the pixels of the pattern.</summary>
internal sealed class SeenBoard
{
    private SeenBoard(IReadOnlyList<SeenDot> dots, bool[] pattern)
    {
        Dots = dots;
        Pattern = pattern;
    }

    /// <summary>Dots that are whole in the photo and lie between the fiducials found.</summary>
    public IReadOnlyList<SeenDot> Dots { get; }

    /// <summary>For every pixel, whether it lies on the pattern between the fiducials found and off their white zones.</summary>
    public bool[] Pattern { get; }

    /// <param name="board">The board.</param>
    /// <param name="map">From board to photo.</param>
    /// <param name="found">The fiducials found.</param>
    /// <param name="picture">The photo.</param>
    /// <param name="reach">How far around a dot the photo must go, px.</param>
    /// <param name="cancellationToken">Stops between rows.</param>
    public static SeenBoard Of(
        Board board, PlaneMap map, IReadOnlyList<Fiducial> found, LightPicture picture, Func<double, double> reach, CancellationToken cancellationToken)
    {
        BoardRectangle judged = Judged(board, found);
        var dots = new List<SeenDot>();
        for (int i = 0; i < board.Dots.Count; i++)
        {
            PrintedDot dot = board.Dots[i];
            double radius = board.Settings.Sizes[dot.Size].DiameterMetres / 2;
            if (dot.X - radius < judged.Left || dot.X + radius > judged.Right || dot.Y - radius < judged.Top || dot.Y + radius > judged.Bottom)
                continue;
            (double x, double y) = map.ToPicture(dot.X, dot.Y);
            double scale = map.AreaScaleAt(dot.X, dot.Y);
            double pixels = radius * Math.Sqrt(scale);
            double far = pixels + reach(pixels) + 1;
            if (picture.Holds(x - far, y - far) && picture.Holds(x + far, y + far))
                dots.Add(new SeenDot(i, x, y, pixels, scale));
        }

        return new SeenBoard(dots, PatternOf(board, map, judged, picture, cancellationToken));
    }

    // Beyond the outermost fiducials found the map is only a guess.
    private static BoardRectangle Judged(Board board, IReadOnlyList<Fiducial> found)
    {
        double Half(Fiducial fiducial) => (fiducial.Side / 2) + board.FiducialQuietZone;
        double left = Math.Max(board.Pattern.Left, found.Min(fiducial => fiducial.X - Half(fiducial)));
        double top = Math.Max(board.Pattern.Top, found.Min(fiducial => fiducial.Y - Half(fiducial)));
        double right = Math.Min(board.Pattern.Right, found.Max(fiducial => fiducial.X + Half(fiducial)));
        double bottom = Math.Min(board.Pattern.Bottom, found.Max(fiducial => fiducial.Y + Half(fiducial)));
        return new BoardRectangle(left, top, right - left, bottom - top);
    }

    private static bool[] PatternOf(Board board, PlaneMap map, BoardRectangle judged, LightPicture picture, CancellationToken cancellationToken)
    {
        bool[] pattern = new bool[picture.Width * picture.Height];
        double zone = board.Fiducials.Count == 0 ? 0 : (board.Fiducials[0].Side / 2) + board.FiducialQuietZone;
        double reach = zone * Math.Sqrt(2 * map.AreaScaleAt(judged.Left + (judged.Width / 2), judged.Top + (judged.Height / 2))) * 2;
        Fiducial[] near = [.. board.Fiducials.Where(mark => IsNear(map.ToPicture(mark.X, mark.Y), picture, reach))];
        Parallel.For(0, picture.Height, new ParallelOptions { CancellationToken = cancellationToken }, row =>
        {
            for (int column = 0; column < picture.Width; column++)
            {
                (double x, double y) = map.ToPlane(column, row);
                bool inside = x >= judged.Left && x <= judged.Right && y >= judged.Top && y <= judged.Bottom;
                pattern[(row * picture.Width) + column] = inside && !near.Any(mark => Math.Abs(x - mark.X) <= zone && Math.Abs(y - mark.Y) <= zone);
            }
        });
        return pattern;
    }

    private static bool IsNear((double X, double Y) place, LightPicture picture, double reach) =>
        place.X > -reach && place.Y > -reach && place.X < picture.Width + reach && place.Y < picture.Height + reach;
}
