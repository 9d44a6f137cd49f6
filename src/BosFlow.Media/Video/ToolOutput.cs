namespace BosFlow.Media.Video;

/// <summary>What a finished tool said.</summary>
/// <param name="ExitCode">Its exit code.</param>
/// <param name="Output">Its standard output.</param>
/// <param name="Errors">Its standard error.</param>
internal sealed record ToolOutput(int ExitCode, string Output, string Errors);
