using System.Text.RegularExpressions;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Running;

/// <summary>What docs/overnight.md shows is what the program prints of two committed scenes and a case with a misspelt key, but for what the machine decides.</summary>
public sealed partial class OvernightPageTests
{
    private const string FolderOfThePage = "/data";

    public static TheoryData<string, int> Blocks
    {
        get
        {
            string[] blocks = [.. PageBlocks.Of("overnight.md")];
            return new TheoryData<string, int> { { blocks[0], ExitCode.Done }, { blocks[1], ExitCode.Failed } };
        }
    }

    [Theory]
    [MemberData(nameof(Blocks))]
    public async Task Page_EachCommand_PrintsWhatThePageShows(string block, int exitCode)
    {
        using var folder = new TemporaryFolder();
        Copy("uniform-shift", folder.PathOf("night", "monday"));
        Copy("hot-plume", folder.PathOf("night", "tuesday"));
        folder.Write("night/wednesday/case.toml", "[footage]\nframes = \"frames/*.png\"\n[reference]\nimag = \"reference.png\"\n");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, PageBlocks.Arguments(block));

        Assert.Equal(exitCode, result.ExitCode);
        PageBlocks.AssertPrinted(block, result.Output.Replace(folder.Root, FolderOfThePage, StringComparison.Ordinal), Comparable);
    }

    private static void Copy(string scene, string target)
    {
        Directory.CreateDirectory(Path.Combine(target, "frames"));
        string source = Repository.PathOf("synthetic-frames", scene);
        foreach (string file in Directory.EnumerateFiles(source, "*.png", SearchOption.AllDirectories).Append(Path.Combine(source, "case.toml")))
            File.Copy(file, Path.Combine(target, Path.GetRelativePath(source, file)));
    }

    // Times, amounts of bytes and threads belong to the machine, and columns are as wide as they; the noise floor is the engine's, which has tests of its own.
    private static string Comparable(string line) => Spaces().Replace(Measured().Replace(line, "#"), " ");

    [GeneratedRegex(@"(\d+ min )?\d+(\.\d+)? s\b|\d+(\.\d+)? ([kMGT]B|[MG]iB)\b|\d+ threads?|0\.\d+ px")]
    private static partial Regex Measured();

    [GeneratedRegex(" +")]
    private static partial Regex Spaces();
}
