using System.Globalization;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>What was made, in words.</summary>
internal static class PrintWords
{
    /// <summary>Sentences on the board and its sheets.</summary>
    public static IEnumerable<string> Of(PrintJob job, Board board)
    {
        BoardSettings settings = job.Settings;
        if (job.MetresPerPixel is { } scale)
            yield return $"{(scale * 1e3).ToString("0.####", CultureInfo.InvariantCulture)} mm of the board a pixel: dots of {BoardWords.Sizes(settings.Sizes)}.";
        yield return $"Board {BoardWords.Area(settings.WidthMetres, settings.HeightMetres)}, pattern {BoardWords.Area(board.Pattern.Width, board.Pattern.Height)}: "
            + $"{Grouped(board.Dots.Count)} dots of {BoardWords.Sizes(settings.Sizes)}, {BoardWords.Tones(settings.Tones)}; {(board.CoverageReached * 100).ToString("0.0", CultureInfo.InvariantCulture)} % covered, gaps of at least {BoardWords.Millimetres(settings.GapMetres)} mm.";
        yield return Marks(board);
        SheetPlan plan = job.Plan;
        yield return plan.Sheets.Count == 1
            ? $"One sheet of {plan.Paper.Name}."
            : $"{plan.Sheets.Count} sheets of {plan.Paper.Name}, {plan.Columns} across and {plan.Rows} down, {BoardWords.Millimetres(plan.OverlapMetres)} mm of overlap; the assembly page shows how they go together.";
        if (job.Files.Any(file => file.Kind is PrintFileKind.Pdf or PrintFileKind.Svg or PrintFileKind.Png))
        {
            yield return "Print at 100 % (no \u201cfit to page\u201d) on matt paper" + (board.Rulers.Count switch
            {
                0 => "; this board is too small for rulers, so measure its width and height.",
                1 => ", then lay a steel rule along the ruler.",
                _ => ", then lay a steel rule along both rulers.",
            });
        }

        string description = Path.GetFileName(job.DescriptionPath);
        yield return $"Keep {description} and {Path.GetFileName(BoardFile.DotsPathOf(description))} with the board: they say where every dot is. For run, write description = \"{description}\" under [board] of the case.";
    }

    private static string Marks(Board board)
    {
        string fiducials = board.Fiducials.Count == 0
            ? "No fiducials"
            : $"{board.Fiducials.Count.ToString(CultureInfo.InvariantCulture)} fiducials of {BoardWords.Millimetres(board.Fiducials[0].Side)} mm";
        string rulers = board.Rulers.Count == 0 ? "no rulers" : $"rulers of {string.Join(" and ", board.Rulers.Select(ruler => BoardWords.Millimetres(ruler.Length)))} mm";
        return $"{fiducials}, {rulers}.";
    }

    private static string Grouped(int number) => number.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');
}
