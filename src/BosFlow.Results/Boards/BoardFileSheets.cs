using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Reads the sheets of a description and checks that together they show the board, each part once.</summary>
internal static class BoardFileSheets
{
    private const double LongestMillimetres = 100_000;

    // A board cut to sheets of which one is missed by more than this is not the board described, m.
    private const double Slack = 1e-6;

    public static SheetPlan Read(BoardFilePlace place, BoardSettings settings)
    {
        int columns = place.Integer("columns", 1, SheetPlanner.MostSheets);
        int rows = place.Integer("rows", 1, SheetPlanner.MostSheets);
        List<Sheet> sheets = [.. place.Items("list", SheetPlanner.MostSheets).Select(item => SheetOf(item, settings))];
        if (sheets.Count != columns * rows)
            throw place.Of("list").Fault(FormattableString.Invariant($"has {sheets.Count} sheets, but {columns} columns and {rows} rows need {columns * rows}"));
        for (int i = 0; i < sheets.Count; i++)
        {
            if (!IsInPlace(sheets, i, columns, settings))
                throw place.Of("list").Fault(FormattableString.Invariant($"has a sheet at place {i} that does not meet its neighbours or the edge of the board"));
        }

        return new SheetPlan
        {
            Paper = new PaperSize(place.Text("paper", 100), place.Metres("paper_width_mm", 1, LongestMillimetres), place.Metres("paper_height_mm", 1, LongestMillimetres)),
            MarginMetres = place.Metres("margin_mm", 0, LongestMillimetres),
            OverlapMetres = place.Metres("overlap_mm", 0, LongestMillimetres),
            Columns = columns,
            Rows = rows,
            Sheets = sheets,
        };
    }

    private static Sheet SheetOf(BoardFilePlace place, BoardSettings settings) => new(
        place.Integer("column", 0, SheetPlanner.MostSheets - 1),
        place.Integer("row", 0, SheetPlanner.MostSheets - 1),
        BoardFileReader.Rectangle(place.Object("net"), settings.WidthMetres, settings.HeightMetres),
        BoardFileReader.Rectangle(place.Object("printed"), settings.WidthMetres, settings.HeightMetres),
        place.Metres("offset_x_mm", 0, LongestMillimetres),
        place.Metres("offset_y_mm", 0, LongestMillimetres));

    private static bool IsInPlace(List<Sheet> sheets, int i, int columns, BoardSettings settings)
    {
        Sheet sheet = sheets[i];
        if (sheet.Column != i % columns || sheet.Row != i / columns)
            return false;
        double left = sheet.Column == 0 ? 0 : sheets[i - 1].Net.Right;
        double top = sheet.Row == 0 ? 0 : sheets[i - columns].Net.Bottom;
        bool endsRow = sheet.Column == columns - 1;
        bool endsColumn = i + columns >= sheets.Count;
        return Math.Abs(sheet.Net.Left - left) <= Slack
            && Math.Abs(sheet.Net.Top - top) <= Slack
            && (!endsRow || Math.Abs(sheet.Net.Right - settings.WidthMetres) <= Slack)
            && (!endsColumn || Math.Abs(sheet.Net.Bottom - settings.HeightMetres) <= Slack);
    }
}
