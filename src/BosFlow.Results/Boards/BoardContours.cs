using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Writes the outlines of a whole board as SVG for laser cutters and plotters: hairlines, no filling, no text.</summary>
/// <remarks>
/// Groups: <c>dots</c> (for boards of two tones with <c>dots-dark</c> and <c>dots-light</c> in it), <c>fiducials</c>, <c>outline</c>. Dots have the diameter that was
/// asked for: the gain of ink is a printer's. A cutter follows the line with the middle of its beam or knife, so holes come out larger by its kerf.
/// </remarks>
public static class BoardContours
{
    // Cutters take a line that is thin enough for a cut and not for an engraving; common practice, no source.
    private const double HairlineMetres = 0.01e-3;

    /// <summary>Writes the document, in the size of the board.</summary>
    /// <param name="stream">Receives UTF-8; the same board gives the same bytes.</param>
    /// <param name="board">The board.</param>
    /// <param name="cancellationToken">Ends the work; what was written is then of no use.</param>
    public static void Write(Stream stream, Board board, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(board);
        double width = board.Settings.WidthMetres;
        double height = board.Settings.HeightMetres;
        BoardSvg.Write(stream, width, height, $"{BoardWords.Title(board)}, contours", writer =>
        {
            writer.Write($"<g fill=\"none\" stroke=\"#000000\" stroke-width=\"{SvgNumber.Of(HairlineMetres)}\">\n");
            Dots(writer, board, cancellationToken);
            writer.Write("<g id=\"fiducials\">\n");
            foreach (Fiducial fiducial in board.Fiducials)
                writer.Write($"<path d=\"{SvgNumber.Path(FiducialShapes.Outlines(fiducial, default))}\"/>\n");
            writer.Write($"</g>\n<g id=\"outline\">\n<rect x=\"0\" y=\"0\" width=\"{SvgNumber.Of(width)}\" height=\"{SvgNumber.Of(height)}\"/>\n</g>\n</g>\n");
        });
    }

    private static void Dots(TextWriter writer, Board board, CancellationToken cancellationToken)
    {
        writer.Write("<g id=\"dots\">\n");
        if (board.Settings.Tones == BoardTones.TwoTone)
        {
            writer.Write("<g id=\"dots-dark\">\n");
            Circles(writer, board, board.Dots.Where(dot => !dot.IsLight), cancellationToken);
            writer.Write("</g>\n<g id=\"dots-light\">\n");
            Circles(writer, board, board.Dots.Where(dot => dot.IsLight), cancellationToken);
            writer.Write("</g>\n");
        }
        else
        {
            Circles(writer, board, board.Dots, cancellationToken);
        }

        writer.Write("</g>\n");
    }

    private static void Circles(TextWriter writer, Board board, IEnumerable<PrintedDot> dots, CancellationToken cancellationToken)
    {
        foreach (PrintedDot dot in dots)
        {
            cancellationToken.ThrowIfCancellationRequested();
            writer.Write($"<circle cx=\"{SvgNumber.Of(dot.X)}\" cy=\"{SvgNumber.Of(dot.Y)}\" r=\"{SvgNumber.Of(board.Settings.Sizes[dot.Size].DiameterMetres / 2)}\"/>\n");
        }
    }
}
