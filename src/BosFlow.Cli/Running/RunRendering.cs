using BosFlow.Pipeline;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Running;

/// <summary>Writes the summary of a finished run again from its own files; nothing is measured.</summary>
internal static class RunRendering
{
    /// <summary>Draws maps and report again.</summary>
    /// <param name="folder">Absolute path of the folder of the run.</param>
    /// <param name="knifeEdgeDegrees">Angle of the knife-edge view; null = the run's own.</param>
    /// <param name="clock">Clock for run.json.</param>
    /// <exception cref="InputDataException">The folder holds no finished run, or a file of it is damaged.</exception>
    public static RenderedRun Again(string folder, double? knifeEdgeDegrees, TimeProvider clock)
    {
        RunSummary summary = RunFolder.ReadSummary(folder);
        RunIdentity identity = RunDocument.Read(Path.Combine(folder, "run.json")).Identity;
        ExperimentCase experiment = summary.Case with { KnifeEdgeDegrees = knifeEdgeDegrees ?? summary.Case.KnifeEdgeDegrees };
        RunFolder run = RunFolder.Open(folder, identity, restart: false, clock);
        run.WriteSummary(summary with { Case = experiment });
        return new RenderedRun(Path.Combine(run.Path, "maps"), run.ReportPath);
    }
}
