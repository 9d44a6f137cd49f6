namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>How deep brackets stand in brackets: the parser goes down one call a level, so the depth is looked at before it.</summary>
internal static class TomlNesting
{
    /// <summary>Deepest that is accepted; the deepest key, a list of polygons, needs three.</summary>
    public const int Deepest = 32;

    /// <summary>The first line with a bracket that is too deep; 0 where there is none.</summary>
    /// <param name="text">A text that need not be TOML. Brackets in texts on one line and in comments do not count.</param>
    public static int FirstTooDeep(string text)
    {
        (int depth, int line, char quote) = (0, 1, '\0');
        for (int i = 0; i < text.Length; i++)
        {
            char letter = text[i];
            if (letter == '\n')
                (line, quote) = (line + 1, '\0');
            else if (quote == '"' && letter == '\\')
                i += i + 1 < text.Length && text[i + 1] != '\n' ? 1 : 0;
            else if (quote != '\0')
                quote = letter == quote && quote != '#' ? '\0' : quote;
            else if (letter is '"' or '\'' or '#')
                quote = letter;
            else if (letter is '[' or '{' && ++depth > Deepest)
                return line;
            else if (letter is ']' or '}')
                depth = Math.Max(depth - 1, 0);
        }

        return 0;
    }
}
