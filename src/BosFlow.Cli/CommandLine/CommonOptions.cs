using System.CommandLine;

namespace BosFlow.Cli.CommandLine;

/// <summary>The options that every command has.</summary>
internal static class CommonOptions
{
    /// <summary>Name of the option for one JSON document on stdout.</summary>
    public const string Json = "--json";

    /// <summary>Name of the option for silence on stderr.</summary>
    public const string Quiet = "--quiet";

    /// <summary>Name of the option for more on stderr.</summary>
    public const string Verbose = "--verbose";

    /// <summary>Name of the option against colour.</summary>
    public const string NoColor = "--no-color";

    /// <summary>Adds the options to the root, from where they reach every command.</summary>
    /// <param name="root">The root command.</param>
    public static void AddTo(RootCommand root)
    {
        ArgumentNullException.ThrowIfNull(root);
        root.Add(new Option<bool>(Json) { Description = "Print one JSON document on stdout and nothing else there.", Recursive = true });
        root.Add(new Option<bool>(Quiet, "-q") { Description = "No progress and no remarks; warnings and errors remain.", Recursive = true });
        root.Add(new Option<bool>(Verbose) { Description = "More detail; an unexpected error shows where in the program it arose.", Recursive = true });
        root.Add(new Option<bool>(NoColor) { Description = "No colour; the environment variable NO_COLOR does the same.", Recursive = true });
    }

    /// <summary>Whether one of these options was given, also where the rest of the command line is wrong.</summary>
    /// <param name="parsed">The parsed command line.</param>
    /// <param name="name">Name of the option.</param>
    public static bool Given(ParseResult parsed, string name)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        return parsed.GetValue<bool>(name);
    }
}
