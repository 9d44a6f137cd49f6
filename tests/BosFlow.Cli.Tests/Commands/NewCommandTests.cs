using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class NewCommandTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    [Fact]
    public async Task New_InANewFolder_WritesTheTemplateAndSaysWhatNext()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "new", "mein Flug ä");

        string file = Path.Combine(folder.Root, "mein Flug ä", "case.toml");
        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Equal(file + Environment.NewLine, result.Output);
        Assert.Contains("bosflow run \"mein Flug ä/case.toml\" --dry-run", result.Error, StringComparison.Ordinal);
        Assert.Equal(CaseTemplate.Write(), await File.ReadAllTextAsync(file));
        Assert.Equal(["case.toml"], Directory.EnumerateFileSystemEntries(Path.GetDirectoryName(file)!).Select(Path.GetFileName));
    }

    [Fact]
    public async Task New_CaseFileExists_LeavesItAlone()
    {
        string file = folder.Write("flight/case.toml", "mine");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "new", "flight");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Equal($"error: {file} exists already and is not overwritten; give another folder.{Environment.NewLine}", result.Error);
        Assert.Equal("mine", await File.ReadAllTextAsync(file));
    }

    [Fact]
    public async Task New_NameOfAFile_IsRefused()
    {
        folder.Write("flight", "a file");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "new", "flight");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Equal($"error: flight is a file; give the name of a folder.{Environment.NewLine}", result.Error);
    }

    [Fact]
    public async Task New_WithJsonAndQuiet_IsOneDocumentAndSilence()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "new", "flight", "--json", "--quiet");

        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal("new", (string?)document["document"]);
        Assert.Equal(Path.Combine(folder.Root, "flight", "case.toml"), (string?)document["case_file"]);
        Assert.Empty(result.Error);
    }

    public void Dispose() => folder.Dispose();
}
