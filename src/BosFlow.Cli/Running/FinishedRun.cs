using BosFlow.Density;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>What a run came to and where it lies.</summary>
/// <param name="Prepared">The run as it was begun.</param>
/// <param name="Outcome">Counts, failed frames, noise floor, warnings.</param>
/// <param name="Folder">Absolute path of the folder with the results.</param>
/// <param name="ReportPath">Absolute path of the report.</param>
/// <param name="LogPath">Absolute path of the log.</param>
public sealed record FinishedRun(PreparedRun Prepared, RunOutcome Outcome, string Folder, string ReportPath, string LogPath)
{
    /// <summary>Density and temperature; null where the case asks for none.</summary>
    public DensityResult? Density { get; init; }

    /// <summary>Time that this process worked on it.</summary>
    public TimeSpan Time { get; init; }

    /// <summary>Everything the user should know of the run, one sentence each.</summary>
    public IReadOnlyList<string> Warnings => [.. Outcome.Warnings.Concat(Density?.Warnings ?? []).Distinct()];

    /// <summary>The exit code that the run earns.</summary>
    public int Code => Outcome.FailedFrames.Count > 0 ? ExitCode.DoneWithLosses : ExitCode.Done;
}
