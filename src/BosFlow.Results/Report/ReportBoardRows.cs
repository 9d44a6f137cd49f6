using BosFlow.Pipeline;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Report;

/// <summary>The printed board as lines of the table of settings.</summary>
internal static class ReportBoardRows
{
    public static IEnumerable<IReadOnlyList<string>> Of(RunSummary summary, BoardFacts? board)
    {
        if (board is null)
            yield break;
        yield return ["Pattern", $"{board.Description}: board of {Figures.Exact(Millimetres(board.WidthMetres))} × {Figures.Exact(Millimetres(board.HeightMetres))} mm, {Figures.Count(board.Dots)} dots, {Tones(board.Tones)}, coverage {Figures.Text(100 * board.Coverage)} %, seed {board.Seed}"];
        yield return ["Diameter of the dots on the board", string.Join(" and ", board.DotSizes.Select(size => $"{Figures.Exact(Millimetres(size.DiameterMetres))} mm"))];
        if (summary.BoardScale is { } seen)
        {
            yield return ["Scale that the board shows in the reference", $"{BoardScaleWords.Value(seen)} ({BoardScaleWords.Basis(seen)})"];
            yield return ["Angle between the line of sight and the board's normal", Figures.WithSigma(seen.TiltRadians * 180 / Math.PI, seen.TiltSigma * 180 / Math.PI, "degrees")];
        }

        if (summary.Scale is not { } scale)
            yield break;
        BoardImage image = BoardImage.Of(board, scale, summary.Case.Displacement.WindowPixels);
        yield return ["Diameter of their images, by the scale in the background plane", string.Join(" and ", image.DotPixels.Select(pixels => $"{Figures.Text(pixels)} px"))];
        yield return ["Dots in an interrogation window, on average", Figures.Text(image.DotsInWindow)];
    }

    private static string Tones(BoardTones tones) => tones switch
    {
        BoardTones.Inverted => "white on black",
        BoardTones.TwoTone => "black and white on grey",
        _ => "black on white",
    };

    private static double Millimetres(double metres) => Math.Round(metres * 1e3, 4);
}
