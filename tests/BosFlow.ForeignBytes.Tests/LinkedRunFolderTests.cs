using BosFlow.Results.Runs;
using BosFlow.Results.Tests;
using BosFlow.TestKit;

namespace BosFlow.ForeignBytes.Tests;

/// <summary>A run writes and deletes nothing outside its folder, whatever links lie in it.</summary>
public sealed class LinkedRunFolderTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public static TheoryData<string, bool> Links
    {
        get
        {
            TheoryData<string, bool> links = [];
            foreach (string name in new[] { "frames", "maps", "shards", "timing.csv", "log.txt", "run.lock" })
            {
                links.Add(name, false);
                links.Add(name, true);
            }

            return links;
        }
    }

    [Theory]
    [MemberData(nameof(Links))]
    public void Open_NameThatARunWritesToIsALink_IsRefusedAndTheTargetUntouched(string name, bool restart)
    {
        string run = folder.PathOf("run");
        RunFolder.Open(run, SampleRun.Identity(), new RunOpening(), TimeProvider.System, CancellationToken.None).Dispose();
        string precious = folder.Write("elsewhere/000001.nc", "not of this run");
        string link = Path.Combine(run, name);
        if (Directory.Exists(link))
            Directory.Delete(link, recursive: true);
        File.Delete(link);
        File.CreateSymbolicLink(link, Path.HasExtension(name) ? precious : Path.GetDirectoryName(precious)!);

        InputDataException refusal = Assert.Throws<InputDataException>(() =>
            RunFolder.Open(run, SampleRun.Identity(), new RunOpening { Restart = restart }, TimeProvider.System, CancellationToken.None).Dispose());

        Assert.StartsWith($"{link} is a link to ", refusal.Message, StringComparison.Ordinal);
        Assert.Equal("not of this run", File.ReadAllText(precious));
        Assert.Single(Directory.GetFileSystemEntries(Path.GetDirectoryName(precious)!));
    }

    public void Dispose() => folder.Dispose();
}
