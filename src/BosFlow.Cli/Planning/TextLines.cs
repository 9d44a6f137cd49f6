namespace BosFlow.Cli.Planning;

/// <summary>Breaks sentences into lines for a terminal.</summary>
internal static class TextLines
{
    private const int Width = 110;

    /// <summary>A text in lines of at most 110 characters, as far as its words allow.</summary>
    /// <param name="text">The text.</param>
    /// <param name="first">What the first line begins with.</param>
    /// <param name="next">What the other lines begin with.</param>
    public static IEnumerable<string> Of(string text, string first, string next)
    {
        ArgumentNullException.ThrowIfNull(text);
        string line = first;
        bool empty = true;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (!empty && line.Length + 1 + word.Length > Width)
            {
                yield return line;
                line = next;
                empty = true;
            }

            line += empty ? word : " " + word;
            empty = false;
        }

        yield return line;
    }
}
