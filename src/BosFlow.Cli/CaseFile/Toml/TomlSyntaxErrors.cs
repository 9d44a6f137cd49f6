using System.Globalization;
using System.Text.RegularExpressions;
using Tomlyn.Syntax;

namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>Turns the parser's diagnostics into sentences for somebody who does not know TOML's grammar.</summary>
internal static partial class TomlSyntaxErrors
{
    private const int MostReported = 8;

    /// <summary>Reports the first diagnostic of each line; the ones behind it only echo it.</summary>
    /// <param name="diagnostics">What the parser found.</param>
    /// <param name="text">The text that was parsed.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Report(DiagnosticsBag diagnostics, string text, CaseProblems problems)
    {
        string[] lines = text.Split('\n');
        IEnumerable<DiagnosticMessage> firstOfEachLine = diagnostics
            .Where(message => message.Kind == DiagnosticMessageKind.Error)
            .GroupBy(message => message.Span.Start.Line)
            .Select(line => line.MinBy(message => message.Span.Start.Column)!)
            .OrderBy(message => message.Span.Start.Line)
            .Take(MostReported);
        int unclosedLine = -2;
        foreach (DiagnosticMessage message in firstOfEachLine)
        {
            int line = message.Span.Start.Line;
            bool echo = line == unclosedLine + 1;
            if (message.Message.Contains("`]`", StringComparison.Ordinal))
                unclosedLine = line;
            if (!echo)
                problems.Add(line + 1, message.Span.Start.Column + 1, InWords(message.Message, BeforeError(lines, message.Span.Start)));
        }
    }

    private static string BeforeError(string[] lines, TextPosition place) =>
        place.Line < lines.Length ? lines[place.Line][..Math.Min(place.Column, lines[place.Line].Length)] : string.Empty;

    private static string InWords(string message, string before)
    {
        Match repeated = AlreadyDefined().Match(message);
        if (repeated.Success)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{repeated.Groups["key"].Value.Trim()} is given a second time, first in line {repeated.Groups["line"].Value}; keep one of the two.");
        }

        if (message.Contains("escape", StringComparison.OrdinalIgnoreCase))
            return "a backslash in \"double quotes\" starts an escape; write the path with / or in 'single quotes'.";
        if (message.Contains("Invalid newline in a string", StringComparison.Ordinal) || message.Contains("End-Of-File found on string", StringComparison.Ordinal))
            return "a text is not closed on its line; add the missing quotation mark.";
        bool inValue = message.StartsWith("Unexpected token", StringComparison.Ordinal) && before.TrimEnd().EndsWith('=');
        if (inValue || message.Contains("while expecting a value", StringComparison.Ordinal))
            return "the value is missing or not readable; write it so: texts stand in \"quotation marks\", numbers use a decimal point, truth is true or false.";
        if (message.Contains("`=` after a key", StringComparison.Ordinal))
            return "an equals sign is missing; write key = value.";
        if (message.Contains("`]`", StringComparison.Ordinal))
            return "a closing bracket ] is missing; add it.";
        return "this is not TOML: " + message.Replace("\u2424", "end of line", StringComparison.Ordinal).Replace("\n", " ", StringComparison.Ordinal) + ".";
    }

    [GeneratedRegex(@"^The key `(?<key>[^`]+)` is already defined at \((?<line>\d+),")]
    private static partial Regex AlreadyDefined();
}
