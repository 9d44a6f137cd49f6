using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>What a run was asked for on the command line.</summary>
public sealed record RunSettings
{
    /// <summary>Absolute path of the case file, or of the folder with a case.toml in it.</summary>
    public required string CasePath { get; init; }

    /// <summary>Absolute path of the folder for the results; null = what the case file says.</summary>
    public string? OutputFolder { get; init; }

    /// <summary>Frames to measure, start:stop:step; null = what the case file says. The results of each frame are the same either way.</summary>
    public string? Frames { get; init; }

    /// <summary>What to do of the run: all of it, one shard, or only the summary.</summary>
    public RunPart Part { get; init; } = RunPart.Whole;

    /// <summary>Number of frames measured side by side, at least 1.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>Memory that the run may take, bytes; null = what the machine has.</summary>
    public long? MaxMemoryBytes { get; init; }

    /// <summary>Whether results that are there already are deleted and measured again.</summary>
    public bool Restart { get; init; }

    /// <summary>Place in a queue for the progress line, such as "case 2 of 5"; null = the only one.</summary>
    public string? Place { get; init; }
}
