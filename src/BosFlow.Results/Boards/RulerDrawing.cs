using System.Globalization;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Draws a ruler: a mark each mm, a number each 10 mm, and how long it is.</summary>
internal static class RulerDrawing
{
    private const double Millimetre = 1e-3;
    private const double LineWidth = 0.12e-3;

    // Distances outward from the base line, in the room of the strip of a large board, 7.6 mm; smaller boards have smaller strips and letters.
    private const double FullRoom = 7.6e-3;
    private const double LetterSize = 1.9e-3;
    private const double CaptionSize = 1.8e-3;
    private const double NumbersBelow = 4.1e-3;
    private const double NumbersBeside = 2.7e-3;
    private const double CaptionBelow = 6.5e-3;
    private const double CaptionBeside = 7.2e-3;

    /// <summary>Draws the ruler with its marks away from the pattern.</summary>
    public static void Draw(IDrawingSurface surface, Board board, BoardRuler ruler, SheetFrame frame)
    {
        double scale = Math.Min(1, Room(board, ruler) / FullRoom);
        // Places by their distance along the ruler and outward from its base line: to the left of an upright ruler, below a level one.
        SheetPoint At(double along, double outward) => ruler.IsVertical
            ? frame.Place(ruler.X - (scale * outward), ruler.Y + along)
            : frame.Place(ruler.X + along, ruler.Y + (scale * outward));

        // Its ends are the middles of the first and the last mark.
        surface.Line(At(-LineWidth / 2, 0), At(ruler.Length + (LineWidth / 2), 0), LineWidth, BoardGreys.Black);
        int last = (int)Math.Round(ruler.Length / Millimetre);
        for (int i = 0; i <= last; i++)
            surface.Line(At(i * Millimetre, 0), At(i * Millimetre, MarkLength(i)), LineWidth, BoardGreys.Black);
        for (int i = 0; i <= last; i += 10)
            Number(surface, i, At(i * Millimetre, ruler.IsVertical ? NumbersBeside : NumbersBelow), ruler.IsVertical, scale * LetterSize);
        Caption(surface, ruler, At(ruler.Length / 2, ruler.IsVertical ? CaptionBeside : CaptionBelow), scale * CaptionSize);
    }

    // From the base line to the legend or to the edge of the board.
    private static double Room(Board board, BoardRuler ruler) => ruler.IsVertical ? ruler.X : board.Legend.Top - ruler.Y;

    private static void Number(IDrawingSurface surface, int millimetres, SheetPoint at, bool isVertical, double size)
    {
        string words = millimetres.ToString(CultureInfo.InvariantCulture);
        // A third of the size lifts the middle of digits to the mark.
        surface.Text(isVertical
            ? new SheetText(words, at with { Y = at.Y + (0.36 * size) }, size) { Align = TextAlign.End }
            : new SheetText(words, at, size) { Align = TextAlign.Middle });
    }

    private static void Caption(IDrawingSurface surface, BoardRuler ruler, SheetPoint at, double size)
    {
        string full = $"This ruler is {BoardWords.Millimetres(ruler.Length)} mm long: check it with a steel rule";
        string brief = $"{BoardWords.Millimetres(ruler.Length)} mm";
        string words = TextMeasure.Width(full, size) <= ruler.Length ? full : brief;
        surface.Text(new SheetText(words, at, size) { Align = TextAlign.Middle, IsUpright = ruler.IsVertical });
    }

    private static double MarkLength(int millimetre) => (millimetre % 10, millimetre % 5) switch
    {
        (0, _) => 2.4e-3,
        (_, 0) => 1.8e-3,
        _ => 1.2e-3,
    };
}
