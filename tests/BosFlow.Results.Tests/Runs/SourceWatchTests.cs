using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

public sealed class SourceWatchTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Check_NothingChangedOrOnlyTouched_IsSilent()
    {
        (SourceWatch watch, string[] files) = Watch(3);
        File.SetLastWriteTimeUtc(files[1], DateTime.UnixEpoch);

        watch.CheckAll(CancellationToken.None);
        watch.CheckFrame(1, CancellationToken.None);
    }

    [Fact]
    public void CheckFrame_ItsFileChanged_NamesItAndLeavesOtherFramesAlone()
    {
        (SourceWatch watch, string[] files) = Watch(3);
        File.AppendAllText(files[1], "!");

        watch.CheckFrame(0, CancellationToken.None);
        string message = Assert.Throws<InputDataException>(() => watch.CheckFrame(1, CancellationToken.None)).Message;

        Assert.Contains("f1.png was changed while the run was at work", message, StringComparison.Ordinal);
        Assert.Throws<InputDataException>(() => watch.CheckAll(CancellationToken.None));
    }

    [Fact]
    public void CheckAll_FileGone_SaysSo()
    {
        (SourceWatch watch, string[] files) = Watch(2);
        File.Delete(files[0]);

        Assert.Contains("f0.png is gone while", Assert.Throws<InputDataException>(() => watch.CheckAll(CancellationToken.None)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void CheckFrame_OneFileForAllFrames_IsLookedAtForEach()
    {
        (SourceWatch watch, string[] files) = Watch(1);
        File.AppendAllText(files[0], "!");

        Assert.Throws<InputDataException>(() => watch.CheckFrame(77, CancellationToken.None));
    }

    private (SourceWatch Watch, string[] Files) Watch(int count)
    {
        string[] files = [.. Enumerable.Range(0, count).Select(i => folder.Write($"f{i}.png", $"picture {i}"))];
        SourceWatch watch = SourceWatch.Begin(files, []);
        return (watch.With(InputHashing.Hash("footage", files, CancellationToken.None)), files);
    }
}
