using System.Text;

namespace BosFlow.Cli.Scenes;

/// <summary>A table of words and numbers as aligned text, Markdown, or CSV.</summary>
/// <param name="Columns">Headings.</param>
/// <param name="Rows">Cells, one for each column.</param>
internal sealed record TextTable(IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<string>> Rows)
{
    /// <summary>Aligned text: the first column to the left, the others to the right.</summary>
    public IEnumerable<string> Lines()
    {
        int[] widths = [.. Columns.Select((heading, column) => Rows.Select(row => row[column].Length).Append(heading.Length).Max())];
        yield return Line(Columns, widths);
        foreach (IReadOnlyList<string> row in Rows)
            yield return Line(row, widths);
    }

    /// <summary>A Markdown table.</summary>
    public string ToMarkdown()
    {
        var text = new StringBuilder();
        text.Append("| ").AppendJoin(" | ", Columns).Append(" |\n|").Append(string.Concat(Columns.Select((_, column) => column == 0 ? " --- |" : " ---: |"))).Append('\n');
        foreach (IReadOnlyList<string> row in Rows)
            text.Append("| ").AppendJoin(" | ", row.Select(cell => cell.Replace("|", "\\|", StringComparison.Ordinal))).Append(" |\n");
        return text.ToString();
    }

    private static string Line(IReadOnlyList<string> cells, int[] widths) =>
        string.Join("  ", cells.Select((cell, column) => column == 0 ? cell.PadRight(widths[column]) : cell.PadLeft(widths[column]))).TrimEnd();
}
