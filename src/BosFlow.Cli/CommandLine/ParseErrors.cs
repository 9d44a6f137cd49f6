using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text.RegularExpressions;

namespace BosFlow.Cli.CommandLine;

/// <summary>Turns the errors of a command line into sentences, with what was probably meant.</summary>
internal static partial class ParseErrors
{
    /// <summary>The sentences.</summary>
    /// <param name="parsed">A command line with errors.</param>
    public static IReadOnlyList<string> InWords(ParseResult parsed)
    {
        Command command = parsed.CommandResult.Command;
        string help = command is RootCommand ? "bosflow --help" : $"bosflow {command.Name} --help";
        if (parsed.UnmatchedTokens.Count > 0)
            return [UnknownWord(parsed.UnmatchedTokens[0], command, help)];
        if (command is RootCommand && parsed.Tokens.All(token => token.Type == TokenType.Option))
            return ["No command is given. bosflow --help lists the commands; bosflow demo shows a complete run."];
        if (parsed.Errors[0].SymbolResult is ArgumentResult { Argument: { } missing, Tokens.Count: 0, Parent: CommandResult })
            return [$"bosflow {command.Name} needs {missing.Name}: {missing.Description} See: {help}"];
        return [.. parsed.Errors.Select(InWords).Distinct().Select(message => $"{message} See: {help}")];
    }

    private static string UnknownWord(string word, Command command, string help)
    {
        if (word.StartsWith('-'))
            return $"{UnknownOption(word, command)} See: {help}";
        return command.Subcommands.Count > 0
            ? $"{Unknown("command", word, command.Subcommands.Select(sub => sub.Name))} See: {help}"
            : $"\"{word}\" is one argument too many for bosflow {command.Name}; put a path with spaces in quotation marks. See: {help}";
    }

    /// <summary>The sentence on an option that does not exist, with the one that was probably meant.</summary>
    /// <param name="word">What was typed.</param>
    /// <param name="command">The command it was typed for.</param>
    public static string UnknownOption(string word, Command command)
    {
        IEnumerable<Option> options = command.Options;
        for (Symbol? parent = command.Parents.FirstOrDefault(); parent is Command above; parent = above.Parents.FirstOrDefault())
            options = options.Concat(above.Options.Where(option => option.Recursive));
        return Unknown("option", word, options.SelectMany(option => option.Aliases.Append(option.Name)));
    }

    private static string Unknown(string what, string word, IEnumerable<string> known) =>
        $"There is no {what} {word}.{(NearestWord.Find(word, known) is { } near ? $" Did you mean {near}?" : string.Empty)}";

    private static string InWords(ParseError error)
    {
        // The library's own messages name types of the runtime; users know numbers and words.
        Match wrongKind = WrongKind().Match(error.Message);
        if (wrongKind.Success)
        {
            string wanted = wrongKind.Groups["type"].Value.Contains("Int32", StringComparison.Ordinal) ? "a whole number" : "a number, with a point before the decimals";
            return $"{wrongKind.Groups["option"].Value} {wrongKind.Groups["value"].Value} is not possible; give {wanted}.";
        }

        if (error.SymbolResult is OptionResult { Tokens.Count: 0 } bare)
            return $"{bare.Option.Name} needs a value: {bare.Option.Description}";
        return error.Message.EndsWith('.') || error.Message.EndsWith('?') ? error.Message : error.Message + ".";
    }

    [GeneratedRegex("^Cannot parse argument '(?<value>.*)' for option '(?<option>.*)' as expected type '(?<type>.*)'")]
    private static partial Regex WrongKind();
}
