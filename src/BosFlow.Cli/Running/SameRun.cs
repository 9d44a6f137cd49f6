namespace BosFlow.Cli.Running;

/// <summary>The command line that means the same frames in the same folder, for messages that say what to start next.</summary>
internal static class SameRun
{
    /// <summary>The command without --shard and --gather.</summary>
    /// <param name="prepared">The run.</param>
    public static string Command(PreparedRun prepared)
    {
        string frames = prepared.Settings.Frames is { } range ? $" --frames {range}" : string.Empty;
        string output = prepared.Settings.OutputFolder is { } folder ? $" --output {Quoted(folder)}" : string.Empty;
        return $"bosflow run {Quoted(prepared.Case.File)}{frames}{output}";
    }

    private static string Quoted(string path) => path.Contains(' ', StringComparison.Ordinal) ? $"\"{path}\"" : path;
}
