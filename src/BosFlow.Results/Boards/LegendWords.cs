using System.Globalization;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>What the legend of a board says.</summary>
internal static class LegendWords
{
    /// <summary>Short statements, the most needed first.</summary>
    public static IReadOnlyList<string> Of(BoardPrint print)
    {
        Board board = print.Board;
        BoardSettings settings = board.Settings;
        double gap = settings.LeastGapMetres ?? (settings.Sizes.Min(size => size.DiameterMetres) / 10);
        List<string> words =
        [
            "Print at 100 %",
            $"dots of {BoardWords.Sizes(settings.Sizes)}",
            BoardWords.Tones(settings.Tones),
            $"{Percent(board.CoverageReached)} covered",
            $"gaps of at least {BoardWords.Millimetres(gap)} mm",
            string.Create(CultureInfo.InvariantCulture, $"seed {settings.Seed}"),
        ];
        if (board.Fiducials.Count > 0)
            words.Add($"fiducials of {BoardWords.Millimetres(board.Fiducials[0].Side)} mm");
        words.Add(settings.InkGainMetres == 0 ? "no allowance for ink gain" : $"drawn {BoardWords.Millimetres(settings.InkGainMetres)} mm smaller for ink gain");
        words.Add($"board {BoardWords.Area(settings.WidthMetres, settings.HeightMetres)}");
        words.Add(print.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        words.Add($"BosFlow {print.ProgramVersion}");
        return words;
    }

    private static string Percent(double part) => $"{(part * 100).ToString("0.0", CultureInfo.InvariantCulture)} %";
}
