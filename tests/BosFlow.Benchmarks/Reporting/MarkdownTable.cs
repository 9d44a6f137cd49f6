using System.Text;

namespace BosFlow.Benchmarks.Reporting;

/// <summary>A table in Markdown.</summary>
internal static class MarkdownTable
{
    public static string Of(IReadOnlyList<string> header, IEnumerable<IReadOnlyList<string>> rows)
    {
        var text = new StringBuilder();
        AppendRow(text, header);
        AppendRow(text, [.. header.Select((_, i) => i == 0 ? "---" : "---:")]);
        foreach (IReadOnlyList<string> row in rows)
            AppendRow(text, row);
        return text.ToString();
    }

    private static void AppendRow(StringBuilder text, IReadOnlyList<string> cells) =>
        text.Append("| ").AppendJoin(" | ", cells).Append(" |\n");
}
