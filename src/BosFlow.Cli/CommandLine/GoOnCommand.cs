using System.CommandLine;
using System.Text.RegularExpressions;

namespace BosFlow.Cli.CommandLine;

/// <summary>The command line that goes on with an interrupted run, ready to be pasted into a shell.</summary>
internal static partial class GoOnCommand
{
    /// <summary>Option that would throw the finished frames away.</summary>
    public const string Restart = "--restart";

    private const string Key = "BosFlow.GoOn";

    /// <summary>Notes in an interruption how to go on. For use as an exception filter.</summary>
    /// <param name="interruption">The interruption.</param>
    /// <param name="parsed">The command line that was interrupted.</param>
    /// <returns>Always false: the exception goes on.</returns>
    public static bool Note(OperationCanceledException interruption, ParseResult parsed)
    {
        string same = parsed.Tokens.Any(token => token.Value == Restart) ? $"Give the same command without {Restart}" : "Give the same command again";
        interruption.Data[Key] = new[] { $"Interrupted; nothing is half-written. {same}: it does what is left.", $"To go on: {Of(parsed)}" };
        return false;
    }

    /// <summary>What the user reads after an interruption.</summary>
    /// <param name="interruption">The interruption.</param>
    public static IReadOnlyList<string> Sentences(OperationCanceledException interruption) =>
        interruption.Data[Key] as string[] ?? ["Interrupted; nothing is half-written. Give the same command again: it does what is left."];

    private static string Of(ParseResult parsed) =>
        string.Join(' ', parsed.Tokens.Select(token => token.Value).Where(word => word != Restart).Select(Quoted).Prepend("bosflow"));

    private static string Quoted(string word) => Plain().IsMatch(word) ? word : $"'{word.Replace("'", "'\\''", StringComparison.Ordinal)}'";

    [GeneratedRegex(@"^[A-Za-z0-9_./:=,@%+-]+$")]
    private static partial Regex Plain();
}
