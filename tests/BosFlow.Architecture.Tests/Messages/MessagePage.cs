using System.Text;

namespace BosFlow.Architecture.Tests.Messages;

/// <summary>The page of messages, docs/messages.md.</summary>
internal static class MessagePage
{
    private const string Start = """
        # Messages and their cures

        Made from the sources of the program; do not edit it by hand (DEVELOPERS.md, "Build and test", says how to make it again).
        Search in it for the fixed words of a message: `<words>` stand for what the program names at that place, such as a file, a
        key or a number. What begins with "..." follows behind the name of what is meant.

        ## How a command ends

        | exit code | meaning | what to do |
        | ---: | --- | --- |
        | 0 | done | |
        | 1 | failed while working; finished frames are kept | mend what the message says, then start the same command again |
        | 2 | wrong use or bad input, found before any work; nothing was written | mend what the message says |
        | 3 | done, but a frame could not be measured (each is listed with its reason), or a verdict is negative | read the list; the rest of the result holds |
        | 130 | interrupted | start the same command again: it goes on where it stopped |

        Errors and warnings go to stderr; a run also writes them to `log.txt` in its folder, warnings also to its report. With `--json`
        the same sentences come as a document on stdout. `--verbose` adds where in the program an error arose.

        """;

    /// <summary>The whole page.</summary>
    /// <param name="messages">The messages, sorted.</param>
    public static string Of(IReadOnlyList<Message> messages)
    {
        var page = new StringBuilder(Start);
        foreach (IGrouping<string, Message> group in messages.GroupBy(message => message.Group))
        {
            page.Append("\n## ").Append(group.Key).Append('\n');
            AddTable(page, "error, or reason why a frame is left out", [.. group.Where(message => message.Kind == MessageKind.Problem)]);
            AddTable(page, "warning; the work goes on", [.. group.Where(message => message.Kind == MessageKind.Warning)]);
        }

        return page.ToString();
    }

    private static void AddTable(StringBuilder page, string heading, IReadOnlyList<Message> messages)
    {
        if (messages.Count == 0)
            return;
        page.Append("\n| ").Append(heading).Append(" | what to do |\n| --- | --- |\n");
        foreach (Message message in messages)
        {
            (string what, string cure) = CureFinder.Split(message.Text);
            string start = char.IsLower(what.FirstOrDefault()) ? "... " : string.Empty;
            string advice = cure.Length > 0 ? cure : message.IsPart ? "as the whole sentence says" : string.Empty;
            page.Append("| ").Append(start).Append(Cell(what)).Append(" | ").Append(Cell(advice)).Append(" |\n");
        }
    }

    private static string Cell(string text) => text
        .Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("|", "\\|", StringComparison.Ordinal)
        .Replace("<", "\\<", StringComparison.Ordinal)
        .Replace("*", "\\*", StringComparison.Ordinal)
        .Replace("_", "\\_", StringComparison.Ordinal);
}
