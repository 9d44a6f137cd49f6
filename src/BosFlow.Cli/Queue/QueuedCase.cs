using BosFlow.Cli.Running;

namespace BosFlow.Cli.Queue;

/// <summary>A case that waits in a queue.</summary>
/// <param name="File">Absolute path of the case file.</param>
/// <param name="Name">Name in the table and, below --output, of the folder of its results.</param>
/// <param name="Prepared">The checked run; null where it was refused.</param>
/// <param name="Problems">Why it was refused, one sentence each.</param>
internal sealed record QueuedCase(string File, string Name, PreparedRun? Prepared, IReadOnlyList<string> Problems)
{
    /// <summary>The case as one that was refused.</summary>
    /// <param name="problems">Why, one sentence each.</param>
    public QueuedCase Refuse(params IReadOnlyList<string> problems) => this with { Prepared = null, Problems = [.. Problems, .. problems] };

    /// <summary>Name of a case: that of its file, or of the folder where the file is a case.toml.</summary>
    /// <param name="file">Absolute path of the case file.</param>
    public static string NameOf(string file) => Path.GetFileName(file) == CaseFile.CaseTemplate.FileName
        ? Path.GetFileName(Path.GetDirectoryName(file)) is { Length: > 0 } folder ? folder : Path.GetFileNameWithoutExtension(file)
        : Path.GetFileNameWithoutExtension(file);
}
