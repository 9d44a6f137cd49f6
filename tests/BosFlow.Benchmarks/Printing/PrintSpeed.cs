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

    public static IReadOnlyList<string> Header => ["step", "seconds", "processor seconds", "MB"];

    public static IEnumerable<IReadOnlyList<string>> Rows(int rounds)
    {
        using TemporaryFolder folder = new();
        BoardSettings settings = LargeBoard.Filling("A0", DotMillimetres, null);
        Board board = null!;
        Time pattern = Seconds(rounds, () => board = BoardMaker.Make(settings, CancellationToken.None));
        BoardPrint print = LargeBoard.On(board, "A0");
        var document = new BoardDocument { Board = board, Sheets = print.Plan, Date = print.Date, ProgramVersion = print.ProgramVersion };
        Time description = Seconds(rounds, () => BoardFile.Write(folder.PathOf("b.json"), document));
        Time pdf = Seconds(rounds, () => Write(folder.PathOf("b.pdf"), stream => BoardPdf.Write(stream, print, CancellationToken.None)));
        Time svg = Seconds(rounds, () => Write(folder.PathOf("b.svg"), stream => BoardSvg.WriteSheet(stream, print, print.Plan.Sheets[0], CancellationToken.None)));
        Time contours = Seconds(rounds, () => Write(folder.PathOf("c.svg"), stream => BoardContours.Write(stream, board, CancellationToken.None)));
        Time png = Seconds(1, () => Write(folder.PathOf("b.png"), stream => BoardPng.WriteSheet(stream, print, print.Plan.Sheets[0], 600, CancellationToken.None)));
        yield return Row($"pattern of {board.Dots.Count.ToString("#,0", CultureInfo.InvariantCulture)} dots", pattern, null);
        yield return Row("description and table of dots", description, folder.PathOf(Path.GetFileName(BoardFile.DotsPathOf("b.json"))));
        yield return Row("PDF", pdf, folder.PathOf("b.pdf"));
        yield return Row("pattern, description and PDF together", new Time(pattern.Wall + description.Wall + pdf.Wall, pattern.Processor + description.Processor + pdf.Processor), null);
        yield return Row("SVG", svg, folder.PathOf("b.svg"));
        yield return Row("contours", contours, folder.PathOf("c.svg"));
        yield return Row("PNG of 600 dpi, 19866 x 28087 px (one round)", png, folder.PathOf("b.png"));
    }

    private static void Write(string path, Action<Stream> write)
    {
        using FileStream stream = File.Create(path);
        write(stream);
    }

    private static Time Seconds(int rounds, Action work)
    {
        List<double> wall = [];
        List<double> processor = [];
        using var self = Process.GetCurrentProcess();
        for (int i = 0; i < rounds; i++)
        {
            long start = Stopwatch.GetTimestamp();
            self.Refresh();
            TimeSpan before = self.TotalProcessorTime;
            work();
            wall.Add(Stopwatch.GetElapsedTime(start).TotalSeconds);
            self.Refresh();
            processor.Add((self.TotalProcessorTime - before).TotalSeconds);
        }

        return new Time(Median.Of(wall), Median.Of(processor));
    }

    private static string[] Row(string step, Time time, string? file) =>
    [
        step,
        time.Wall.ToString("0.00", CultureInfo.InvariantCulture),
        time.Processor.ToString("0.00", CultureInfo.InvariantCulture),
        file is null ? string.Empty : (new FileInfo(file).Length / 1e6).ToString("0.0", CultureInfo.InvariantCulture),
    ];

    private readonly record struct Time(double Wall, double Processor);
}
