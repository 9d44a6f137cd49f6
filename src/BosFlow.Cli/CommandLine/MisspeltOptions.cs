using System.CommandLine;
using System.CommandLine.Parsing;

namespace BosFlow.Cli.CommandLine;

/// <summary>Keeps an option that does not exist from being taken for one path among several.</summary>
internal static class MisspeltOptions
{
    /// <summary>Refuses words that begin with a dash; a file of such a name can be given as ./-name.</summary>
    /// <param name="paths">An argument that takes several paths.</param>
    public static void RefuseAmong(Argument<string[]> paths) => paths.Validators.Add(result =>
    {
        if (result.Tokens.FirstOrDefault(token => token.Value.StartsWith('-')) is not { } word)
            return;
        IEnumerable<string> known = (result.Parent as CommandResult)?.Command.Options.SelectMany(option => option.Aliases.Append(option.Name)) ?? [];
        string hint = NearestWord.Find(word.Value, known) is { } near ? $" Did you mean {near}?" : string.Empty;
        result.AddError($"There is no option {word.Value}.{hint}");
    });
}
