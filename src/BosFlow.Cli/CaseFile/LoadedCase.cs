using BosFlow.Pipeline;

namespace BosFlow.Cli.CaseFile;

/// <summary>A case file that was read and checked.</summary>
/// <param name="File">Absolute path of the case file.</param>
/// <param name="Folder">Absolute path of its folder, to which the paths in it are relative.</param>
/// <param name="OutputFolder">Absolute path of the folder of the results.</param>
/// <param name="Experiment">The case in SI units.</param>
public sealed record LoadedCase(string File, string Folder, string OutputFolder, ExperimentCase Experiment);
