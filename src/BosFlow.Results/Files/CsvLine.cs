using System.Text;

namespace BosFlow.Results.Files;

/// <summary>One line of comma-separated values. Source: RFC 4180, with a line break inside a value replaced by a space.</summary>
internal static class CsvLine
{
    public static string Join(IEnumerable<string> values) => string.Join(',', values.Select(Quote));

    public static List<string> Split(string line)
    {
        List<string> values = [];
        var value = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (quoted && c == '"' && i + 1 < line.Length && line[i + 1] == '"')
            {
                value.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                values.Add(value.ToString());
                value.Clear();
            }
            else
            {
                value.Append(c);
            }
        }

        values.Add(value.ToString());
        return values;
    }

    private static string Quote(string value)
    {
        string line = value.ReplaceLineEndings(" ");
        return line.AsSpan().ContainsAny(',', '"') ? $"\"{line.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : line;
    }
}
