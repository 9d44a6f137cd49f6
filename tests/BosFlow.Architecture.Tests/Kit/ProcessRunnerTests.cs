using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Kit;

public sealed class ProcessRunnerTests
{
    [Fact]
    public async Task RunAsync_ProgramThatFails_GivesCodeAndBothStreams()
    {
        using var folder = new TemporaryFolder();

        ProcessResult result = await ProcessRunner.RunAsync(
            "bash",
            ["-c", "pwd; echo \"$WORD\" >&2; exit 7"],
            folder.Root,
            new Dictionary<string, string?> { ["WORD"] = "a word" },
            CancellationToken.None);

        Assert.Equal(7, result.ExitCode);
        Assert.Equal(folder.Root, result.Output.Trim());
        Assert.Equal("a word", result.Error.Trim());
        Assert.Throws<InvalidOperationException>(result.EnsureSuccess);
    }
}
