using System.Text.RegularExpressions;

namespace BosFlow.Cli.CaseFile;

/// <summary>How a choice of frames is typed, in the case file and on the command line.</summary>
internal static partial class FrameRangeSyntax
{
    /// <summary>Regular expression of a range.</summary>
    public const string Pattern = @"^(-?\d{1,9})?:(-?\d{1,9})?(:[1-9]\d{0,8})?$|^-?\d{1,9}$";

    /// <summary>How to type a range, in words.</summary>
    public const string InWords = "start:stop:step in whole numbers, such as \"0:90\" (frames 0 to 89), \"-30:\" (the last thirty), \"::10\" (every tenth) or \"7\" (one frame)";

    /// <summary>Whether a text is a range; whether the footage has such frames is checked against the footage.</summary>
    /// <param name="text">The text.</param>
    public static bool IsRange(string text) => text.Length > 0 && Range().IsMatch(text);

    [GeneratedRegex(Pattern)]
    private static partial Regex Range();
}
