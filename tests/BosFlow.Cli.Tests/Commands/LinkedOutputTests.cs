using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

/// <summary>Where a name that a command writes to is a link, the link is replaced or refused, and what it leads to stays as it was.</summary>
public sealed class LinkedOutputTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public static TheoryData<string, int, string[]> Commands => new()
    {
        { "out/board.pdf", ExitCode.Done, ["print", "--board-mm", "160x160", "--dot-mm", "2.5", "--output", "out/board.pdf", "--force"] },
        { "out/board.json", ExitCode.Done, ["print", "--board-mm", "160x160", "--dot-mm", "2.5", "--output", "out/board.pdf", "--force"] },
        { "out/board.dots.csv", ExitCode.Done, ["print", "--board-mm", "160x160", "--dot-mm", "2.5", "--output", "out/board.pdf", "--force"] },
        { "out/plan.html", ExitCode.Done, ["plan", Repository.PathOf("docs", "examples", "bench-candle.toml"), "--output", "out", "--force"] },
        { "out/plan.json", ExitCode.Done, ["plan", Repository.PathOf("docs", "examples", "bench-candle.toml"), "--output", "out", "--force"] },
        { "out/case.toml", ExitCode.BadInput, ["new", "out"] },
        { "out/case.toml.part", ExitCode.Done, ["new", "out"] },
        { "out/frames", ExitCode.BadInput, ["synth", Repository.PathOf("synthetic-frames", "uniform-shift", "recipe.toml"), "--output", "out"] },
    };

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Command_NameIsALink_TargetIsUntouched(string link, int exitCode, string[] command)
    {
        string precious = folder.Write("elsewhere/precious.txt", "of the user");
        string path = folder.PathOf(link.Split('/'));
        File.CreateSymbolicLink(path, Path.HasExtension(path) ? precious : Path.GetDirectoryName(precious)!);

        ProcessResult result = await CliRun.InsideAsync(folder.Root, command);

        Assert.True(result.ExitCode == exitCode, result.Error);
        Assert.Equal("of the user", await File.ReadAllTextAsync(precious));
        Assert.Equal(["elsewhere", "out"], Directory.EnumerateFileSystemEntries(folder.Root).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Single(Directory.EnumerateFileSystemEntries(Path.GetDirectoryName(precious)!));
    }

    public void Dispose() => folder.Dispose();
}
