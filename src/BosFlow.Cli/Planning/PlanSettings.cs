using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.Planning;

/// <summary>What a plan was asked for on the command line.</summary>
internal sealed record PlanSettings
{
    /// <summary>Absolute path of the case file or its folder; null for options alone.</summary>
    public required string? CasePath { get; init; }

    /// <summary>Options that stand for keys, as typed.</summary>
    public required IReadOnlyList<(CaseKey Key, string Typed)> Options { get; init; }

    /// <summary>Sweeps, as typed.</summary>
    public required IReadOnlyList<string> Sweeps { get; init; }

    /// <summary>Whether the best rigs within the limits are looked for.</summary>
    public required bool Optimise { get; init; }

    /// <summary>Absolute path of the folder of the page; null for none.</summary>
    public required string? OutputFolder { get; init; }

    /// <summary>Whether plan files in the folder are replaced.</summary>
    public required bool Force { get; init; }
}
