namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>One TOML value with its place in the file.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Value">string, long, double, bool, the items of a list, or the keys of a table; null for dates, which no key takes.</param>
/// <param name="Source">The value as typed, for messages.</param>
/// <param name="Line">Line of its first character, from 1.</param>
internal sealed record TomlNode(TomlKind Kind, object? Value, string Source, int Line)
{
    private const int LongestQuote = 60;

    /// <summary>The items of a list; empty for everything else.</summary>
    public IReadOnlyList<TomlNode> Items => Value as IReadOnlyList<TomlNode> ?? [];

    /// <summary>The keys of a table; empty for everything else.</summary>
    public IReadOnlyList<TomlEntry> Entries => Value as IReadOnlyList<TomlEntry> ?? [];

    /// <summary>The value as typed, cut where it would swamp a message.</summary>
    public string Quote
    {
        get
        {
            string line = string.Join(' ', Source.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            return line.Length <= LongestQuote ? line : string.Concat(line.AsSpan(0, LongestQuote - 3), "...");
        }
    }

    /// <summary>What the value is, in words with an article.</summary>
    public string KindInWords => Kind switch
    {
        TomlKind.Text => "a text",
        TomlKind.Integer => "a whole number",
        TomlKind.Number => "a number",
        TomlKind.Boolean => "true or false",
        TomlKind.List => "a list",
        TomlKind.Table => "a table",
        _ => "a date",
    };

    /// <summary>The value as a number.</summary>
    /// <param name="number">The number; NaN where the value is none.</param>
    /// <returns>Whether the value is a whole or decimal number.</returns>
    public bool TryNumber(out double number)
    {
        number = Value switch { long whole => whole, double real => real, _ => double.NaN };
        return Kind is TomlKind.Integer or TomlKind.Number;
    }
}
