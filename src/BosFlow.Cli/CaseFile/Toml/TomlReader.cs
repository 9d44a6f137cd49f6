using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>Takes a TOML text apart, keeping the line of everything.</summary>
internal static class TomlReader
{
    /// <summary>Parses a text.</summary>
    /// <param name="text">The text of the file.</param>
    /// <param name="problems">Receives a sentence for every line that is not TOML.</param>
    /// <returns>Sections and keys; null where the text is not TOML.</returns>
    public static TomlText? Read(string text, CaseProblems problems)
    {
        // A byte-order mark, as some editors write it, is no part of the text.
        string plain = text.TrimStart('\uFEFF');
        if (TomlNesting.FirstTooDeep(plain) is > 0 and var line)
        {
            problems.Add(line, $"brackets stand in brackets more than {TomlNesting.Deepest} deep; no key takes such a value, so remove them.");
            return null;
        }

        DocumentSyntax document;
        try
        {
            document = SyntaxParser.Parse(plain, sourceName: string.Empty, validate: true);
        }
        catch (ArgumentException)
        {
            // The parser fails on an escape that is cut off, such as a backslash as the last letter of the file.
            problems.Add(0, "a text in \"double quotes\" ends within an escape; close it, and write paths with / or in 'single quotes'.");
            return null;
        }

        if (document.HasErrors)
        {
            TomlSyntaxErrors.Report(document.Diagnostics, plain, problems);
            return null;
        }

        List<TomlSection> sections = [];
        List<TomlEntry> entries = [];
        foreach (KeyValueSyntax pair in document.KeyValues)
            Add(string.Empty, pair, entries);
        foreach (TableSyntaxBase table in document.Tables)
        {
            string name = string.Join('.', Parts(table.Name!));
            sections.Add(new TomlSection(name, LineOf(table), table is TableArraySyntax));
            foreach (KeyValueSyntax pair in table.Items)
                Add(name, pair, entries);
        }

        return new TomlText(sections, entries);
    }

    /// <summary>Reads one value that stands alone, such as a default.</summary>
    /// <param name="literal">The value in TOML notation.</param>
    public static TomlNode Value(string literal)
    {
        var problems = new CaseProblems("value");
        // Under a heading, since a table above the first one would be taken for a section.
        TomlText? text = Read("[of]\nvalue = " + literal, problems);
        problems.ThrowIfAny();
        return text!.Entries[0].Value;
    }

    private static void Add(string section, KeyValueSyntax pair, List<TomlEntry> entries)
    {
        List<string> parts = Parts(pair.Key!);
        string[] path = section.Length == 0 ? [.. parts] : [section, .. parts];
        if (section.Length == 0 && path.Length == 1 && pair.Value is InlineTableSyntax table)
        {
            foreach (InlineTableItemSyntax item in table.Items)
                Add(path[0], item.KeyValue!, entries);
            return;
        }

        string owner = string.Join('.', path[..^1]);
        entries.Add(new TomlEntry(owner, path[^1], LineOf(pair), Node(pair.Value!)));
    }

    private static TomlNode Node(ValueSyntax value)
    {
        int line = LineOf(value);
        // The syntax tree hands out trailing comments with the last token; messages quote the value alone.
        string source = value is ArraySyntax or InlineTableSyntax ? value.ToString().Trim() : TokenText(value);
        return value switch
        {
            StringValueSyntax text => new TomlNode(TomlKind.Text, text.Value ?? string.Empty, source, line),
            IntegerValueSyntax whole => new TomlNode(TomlKind.Integer, whole.Value, source, line),
            FloatValueSyntax real => new TomlNode(TomlKind.Number, real.Value, source, line),
            BooleanValueSyntax truth => new TomlNode(TomlKind.Boolean, truth.Value, source, line),
            ArraySyntax array => new TomlNode(TomlKind.List, array.Items.Select(item => Node(item.Value!)).ToArray(), source, line),
            InlineTableSyntax table => new TomlNode(TomlKind.Table, Entries(table), source, line),
            _ => new TomlNode(TomlKind.Date, null, source, line),
        };
    }

    private static List<TomlEntry> Entries(InlineTableSyntax table)
    {
        List<TomlEntry> entries = [];
        foreach (InlineTableItemSyntax item in table.Items)
            Add(string.Empty, item.KeyValue!, entries);
        return entries;
    }

    private static string TokenText(ValueSyntax value)
    {
        SyntaxToken? token = value switch
        {
            StringValueSyntax text => text.Token,
            IntegerValueSyntax whole => whole.Token,
            FloatValueSyntax real => real.Token,
            BooleanValueSyntax truth => truth.Token,
            DateTimeValueSyntax date => date.Token,
            _ => null,
        };
        return token?.Text ?? value.ToString().Trim();
    }

    private static List<string> Parts(KeySyntax key)
    {
        List<string> parts = [NameOf(key.Key!)];
        foreach (DottedKeyItemSyntax item in key.DotKeys)
            parts.Add(NameOf(item.Key!));
        return parts;
    }

    private static string NameOf(BareKeyOrStringValueSyntax name) =>
        name is StringValueSyntax quoted ? quoted.Value ?? string.Empty : ((BareKeySyntax)name).Key?.Text ?? string.Empty;

    private static int LineOf(SyntaxNode node) => node.Span.Start.Line + 1;
}
