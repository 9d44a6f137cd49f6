using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RenderCommandTests : IDisposable
{
    private readonly SmallCase small = new(frames: 2);

    [Fact]
    public async Task Render_FinishedRun_DrawsTheSamePicturesAgain()
    {
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        Dictionary<string, byte[]> before = Pictures();
        foreach (string picture in before.Keys)
            File.Delete(picture);
        File.Delete(Path.Combine(small.RunFolder, "report.html"));

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "render", "run");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        Assert.NotEmpty(before);
        Assert.Equal(before.Keys.Order(StringComparer.Ordinal), Pictures().Keys.Order(StringComparer.Ordinal));
        Assert.All(Pictures(), picture => Assert.Equal(before[picture.Key], picture.Value));
        Assert.True(File.Exists(Path.Combine(small.RunFolder, "report.html")));
    }

    [Fact]
    public async Task Render_OtherKnifeEdge_ChangesThatViewAndNoMeasurement()
    {
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        Dictionary<string, byte[]> before = Pictures();
        byte[] frame = await File.ReadAllBytesAsync(Path.Combine(small.RunFolder, "frames", "000001.nc"));

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "render", "run", "--knife-edge-deg", "90", "--json");

        Assert.Equal("render", (string?)JsonNode.Parse(result.Output)!["document"]);
        string changed = Assert.Single(Pictures(), picture => !picture.Value.SequenceEqual(before[picture.Key])).Key;
        Assert.Contains("knife", changed, StringComparison.Ordinal);
        Assert.Equal(frame, await File.ReadAllBytesAsync(Path.Combine(small.RunFolder, "frames", "000001.nc")));
    }

    [Fact]
    public async Task Render_AfterwardsRun_FindsTheRunAsItWas()
    {
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        await CliRun.InsideAsync(small.Folder, "render", "run", "--knife-edge-deg", "45");

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("all of them were there already", result.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(".", "run.json")]
    [InlineData("nowhere", "run.json")]
    public async Task Render_NoRun_IsRefused(string folder, string words)
    {
        ProcessResult result = await CliRun.InsideAsync(small.Folder, "render", folder);

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains(words, result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Render_AngleOutOfRange_IsRefused()
    {
        ProcessResult result = await CliRun.InsideAsync(small.Folder, "render", "run", "--knife-edge-deg", "400");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("--knife-edge-deg 400 is out of range; give degrees from -360 to 360.", result.Error, StringComparison.Ordinal);
    }

    public void Dispose() => small.Dispose();

    private Dictionary<string, byte[]> Pictures() =>
        Directory.GetFiles(Path.Combine(small.RunFolder, "maps"), "*.png").ToDictionary(path => path, File.ReadAllBytes);
}
