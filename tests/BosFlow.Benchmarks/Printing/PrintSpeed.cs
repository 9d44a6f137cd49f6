using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Printing;

/// <summary>Times of the steps of a print of a million dots.</summary>
internal static class PrintSpeed
{
    // As many of them cover 35 % of an A0 sheet as there are in a million, nearly.
    private const double DotMillimetres = 0.64;

    public static IReadOnlyList<string> Header => ["step", "seconds", "MB"];

    public static IEnumerable<IReadOnlyList<string>> Rows(int rounds)
    {
        using TemporaryFolder folder = new();
        BoardSettings settings = LargeBoard.Filling("A0", DotMillimetres);
        Board board = null!;
        double pattern = Seconds(rounds, () => board = BoardMaker.Make(settings, CancellationToken.None));
        BoardPrint print = LargeBoard.On(board, "A0");
        var document = new BoardDocument { Board = board, Sheets = print.Plan, Date = print.Date, ProgramVersion = print.ProgramVersion };
        double description = Seconds(rounds, () => BoardFile.Write(folder.PathOf("b.json"), document));
        double pdf = Seconds(rounds, () => Write(folder.PathOf("b.pdf"), stream => BoardPdf.Write(stream, print, CancellationToken.None)));
        double svg = Seconds(rounds, () => Write(folder.PathOf("b.svg"), stream => BoardSvg.WriteSheet(stream, print, print.Plan.Sheets[0], CancellationToken.None)));
        double contours = Seconds(rounds, () => Write(folder.PathOf("c.svg"), stream => BoardContours.Write(stream, board, CancellationToken.None)));
        double png = Seconds(1, () => Write(folder.PathOf("b.png"), stream => BoardPng.WriteSheet(stream, print, print.Plan.Sheets[0], 600, CancellationToken.None)));
        yield return Row($"pattern of {board.Dots.Count.ToString("#,0", CultureInfo.InvariantCulture)} dots", pattern, null);
        yield return Row("description and table of dots", description, folder.PathOf(Path.GetFileName(BoardFile.DotsPathOf("b.json"))));
        yield return Row("PDF", pdf, folder.PathOf("b.pdf"));
        yield return Row("pattern, description and PDF together", pattern + description + pdf, null);
        yield return Row("SVG", svg, folder.PathOf("b.svg"));
        yield return Row("contours", contours, folder.PathOf("c.svg"));
        yield return Row("PNG of 600 dpi, 19866 x 28087 px (one round)", png, folder.PathOf("b.png"));
    }

    private static void Write(string path, Action<Stream> write)
    {
        using FileStream stream = File.Create(path);
        write(stream);
    }

    private static double Seconds(int rounds, Action work)
    {
        List<double> seconds = [];
        for (int i = 0; i < rounds; i++)
        {
            long start = Stopwatch.GetTimestamp();
            work();
            seconds.Add(Stopwatch.GetElapsedTime(start).TotalSeconds);
        }

        return Median.Of(seconds);
    }

    private static string[] Row(string step, double seconds, string? file) =>
    [
        step,
        seconds.ToString("0.00", CultureInfo.InvariantCulture),
        file is null ? string.Empty : (new FileInfo(file).Length / 1e6).ToString("0.0", CultureInfo.InvariantCulture),
    ];
}
