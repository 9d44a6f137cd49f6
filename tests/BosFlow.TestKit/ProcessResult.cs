namespace BosFlow.TestKit;

/// <summary>What a program left behind.</summary>
/// <param name="ExitCode">Its exit code; 128 + signal where a signal ended it.</param>
/// <param name="Output">Everything it wrote to stdout.</param>
/// <param name="Error">Everything it wrote to stderr.</param>
public sealed record ProcessResult(int ExitCode, string Output, string Error)
{
    /// <summary>The result itself where the exit code is 0.</summary>
    /// <returns>This result.</returns>
    /// <exception cref="InvalidOperationException">The exit code is not 0; the message holds both streams.</exception>
    public ProcessResult EnsureSuccess() => ExitCode == 0
        ? this
        : throw new InvalidOperationException($"exit code {ExitCode}\n--- stdout\n{Output}\n--- stderr\n{Error}");
}
