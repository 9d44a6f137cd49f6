using System.CommandLine;
using System.CommandLine.Parsing;

namespace BosFlow.Cli.CommandLine;

/// <summary>Turns the errors of a command line into sentences, with what was probably meant.</summary>
internal static class ParseErrors
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
        return [.. parsed.Errors.Select(error => error.Message).Distinct().Select(message => $"{Sentence(message)} See: {help}")];
    }

    private static string UnknownWord(string word, Command command, string help)
    {
        IEnumerable<Option> options = command.Options;
        for (Symbol? parent = command.Parents.FirstOrDefault(); parent is Command above; parent = above.Parents.FirstOrDefault())
            options = options.Concat(above.Options.Where(option => option.Recursive));
        bool isOption = word.StartsWith('-');
        IEnumerable<string> known = isOption
            ? options.SelectMany(option => option.Aliases.Append(option.Name))
            : command.Subcommands.Select(sub => sub.Name);
        string? near = NearestWord.Find(word, known);
        string what = isOption ? "option" : command.Subcommands.Count > 0 ? "command" : "argument";
        string hint = near is null ? string.Empty : $" Did you mean {near}?";
        return what == "argument"
            ? $"\"{word}\" is one argument too many for bosflow {command.Name}; put a path with spaces in quotation marks. See: {help}"
            : $"There is no {what} {word}.{hint} See: {help}";
    }

    private static string Sentence(string message) => message.EndsWith('.') ? message : message + ".";
}
