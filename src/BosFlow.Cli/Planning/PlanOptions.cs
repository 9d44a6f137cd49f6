using System.CommandLine;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.Planning;

/// <summary>The options that stand for keys of the case file, made from the declaration of the keys.</summary>
internal sealed class PlanOptions
{
    // Of a section with many keys, those that a plan depends on.
    private static readonly CaseKey[] Measuring = [DisplacementKeys.Quality, DisplacementKeys.Window];

    private readonly (CaseKey Key, Option<string?> Option)[] options = [.. Keys.Select(key => (key, Make(key)))];

    /// <summary>The keys that have an option.</summary>
    public static IReadOnlyList<CaseKey> Keys { get; } =
    [
        .. RigKeys.Section.Keys.Where(key => !key.IsUncertainty && key != RigKeys.BackgroundScale),
        .. CameraKeys.Section.Keys,
        .. BoardKeys.Section.Keys.Where(key => key != BoardKeys.Description),
        .. ExpectedKeys.Section.Keys,
        .. LimitsKeys.Section.Keys,
        .. GasKeys.Section.Keys.Where(key => !key.IsUncertainty && key != GasKeys.Composition),
        .. Measuring,
    ];

    /// <summary>Adds the options to a command.</summary>
    /// <param name="command">The command.</param>
    public void AddTo(Command command)
    {
        ArgumentNullException.ThrowIfNull(command);
        foreach ((_, Option<string?> option) in options)
            command.Add(option);
    }

    /// <summary>What was typed, by key, in the order of the declaration.</summary>
    /// <param name="parsed">The parsed command line.</param>
    public IReadOnlyList<(CaseKey Key, string Typed)> Read(ParseResult parsed)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        return [.. options.Select(item => (item.Key, Typed: parsed.GetValue(item.Option))).Where(item => item.Typed is not null).Select(item => (item.Key, item.Typed!))];
    }

    private static Option<string?> Make(CaseKey key) => new(CaseOption.NameOf(key))
    {
        Description = key.Default is null ? key.Description : $"{key.Description} Default: {key.Default.Trim('"')}.",
        HelpName = key switch
        {
            NumberListKey => "N,N,...",
            NumberKey or IntegerKey => "N",
            _ => "WORD",
        },
    };
}
