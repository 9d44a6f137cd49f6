using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.CommandLine;

public sealed class CommandLineTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public static TheoryData<string, string> WrongUse => new()
    {
        { "", "error: No command is given. bosflow --help lists the commands; bosflow demo shows a complete run." },
        { "rnu case.toml", "error: There is no command rnu. Did you mean run? See: bosflow --help" },
        { "xyzzy", "error: There is no command xyzzy. See: bosflow --help" },
        { "--verzion", "error: There is no option --verzion. Did you mean --version? See: bosflow --help" },
        { "new", "error: bosflow new needs FOLDER: Folder of the case; made where it does not exist. See: bosflow new --help" },
        { "new a b", "error: \"b\" is one argument too many for bosflow new; put a path with spaces in quotation marks. See: bosflow new --help" },
        { "new a --quit", "error: There is no option --quit. Did you mean --quiet? See: bosflow new --help" },
        { "render run --knife-edge-deg abc", "error: --knife-edge-deg abc is not possible; give a number, with a point before the decimals. See: bosflow render --help" },
        { "run a --threads abc", "error: --threads abc is not possible; give a whole number from 1 to 1024. See: bosflow run --help" },
        { "run a --restrat", "error: There is no option --restrat. Did you mean --restart? See: bosflow run --help" },
        { "run a --quit", "error: There is no option --quit. Did you mean --quiet? See: bosflow run --help" },
        { "run a --output", "error: --output needs a value: Folder of the results, in place of the one in the case file; of a queue, it holds a folder for each case. See: bosflow run --help" },
        { "case-keys --schema --markdown", "error: --schema, --markdown and --recipe exclude each other; give one of them. See: bosflow case-keys --help" },
    };

    [Theory]
    [MemberData(nameof(WrongUse))]
    public async Task Run_WrongUse_OneSentenceOnStderrAndExitCode2(string line, string sentence)
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, line.Split(' ', StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Equal(sentence + Environment.NewLine, result.Error);
        Assert.Empty(result.Output);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Root));
    }

    [Fact]
    public async Task Run_WrongUseWithJson_IsOneDocumentOnStdout()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "new", "--json");

        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal("error", (string?)document["document"]);
        Assert.Equal(ExitCode.BadInput, (int)document["exit_code"]!);
        Assert.StartsWith("bosflow new needs FOLDER", (string?)document["problems"]![0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Help_OfEveryCommand_HasDescriptionAndExamples()
    {
        ProcessResult root = await CliRun.InsideAsync(folder.Root, "--help");

        Assert.Equal(ExitCode.Done, root.ExitCode);
        Assert.Empty(root.Error);
        string[] commands = [.. root.Output.Split("Commands:")[1].Split("Exit codes:")[0]
            .Split('\n').Where(line => line.Length > 2 && line.StartsWith("  ", StringComparison.Ordinal) && char.IsLetter(line[2]))
            .Select(line => line.Trim().Split(' ')[0])];
        Assert.Contains("new", commands);
        foreach (string command in commands)
        {
            ProcessResult help = await CliRun.InsideAsync(folder.Root, command, "--help");
            Assert.Equal(ExitCode.Done, help.ExitCode);
            Assert.Contains($"bosflow {command}", help.Output, StringComparison.Ordinal);
            Assert.Contains("Examples:", help.Output, StringComparison.Ordinal);
            Assert.All(help.Output.Split('\n'), line => Assert.True(line.Length <= 120, line));
        }
    }

    [Fact]
    public async Task Version_AsProcess_IsOneLineOnStdout()
    {
        ProcessResult result = await CliRun.ProcessAsync(folder.Root, "--version");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Matches(@"^bosflow \d+\.\d+\.\d+\S*( \([0-9a-f]{10}\))?\r?\n$", result.Output);
        Assert.Empty(result.Error);
    }

    [Fact]
    public async Task WrongUse_AsProcess_LeavesStdoutEmptyAndReturns2()
    {
        ProcessResult result = await CliRun.ProcessAsync(folder.Root, "nwe", "x");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Empty(result.Output);
        Assert.Equal("error: There is no command nwe. Did you mean new? See: bosflow --help\n", result.Error);
    }

    public void Dispose() => folder.Dispose();
}
