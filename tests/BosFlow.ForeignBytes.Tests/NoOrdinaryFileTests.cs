using BosFlow.Cli.Lenses;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Results.Boards;
using BosFlow.Results.NetCdf;
using BosFlow.TestKit;

namespace BosFlow.ForeignBytes.Tests;

/// <summary>Pipes and devices are refused before they are opened: a pipe without a writer would be waited for without end.</summary>
public sealed class NoOrdinaryFileTests : IAsyncLifetime, IDisposable
{
    private readonly TemporaryFolder folder = new();

    public static TheoryData<string> Names => ["pipe", "link to pipe", "device", "/dev/zero"];

    public async Task InitializeAsync()
    {
        (await ProcessRunner.RunAsync("mkfifo", [folder.PathOf("pipe")])).EnsureSuccess();
        File.CreateSymbolicLink(folder.PathOf("link to pipe"), folder.PathOf("pipe"));
        File.CreateSymbolicLink(folder.PathOf("device"), "/dev/zero");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Read_Picture_IsRefused(string name) => Refused(name, path => PictureReader.Read(path));

    [Theory]
    [MemberData(nameof(Names))]
    public void Open_Video_IsRefused(string name) => Refused(name, path => FootageOpener.Open(new FootageSettings { Video = path }, folder.Root, CancellationToken.None));

    [Theory]
    [MemberData(nameof(Names))]
    public void Read_BoardDescription_IsRefused(string name) => Refused(name, path => BoardFile.Read(path));

    [Theory]
    [MemberData(nameof(Names))]
    public void Read_LensFile_IsRefused(string name) => Refused(name, path => LensFileReader.Read(path));

    [Theory]
    [MemberData(nameof(Names))]
    public void Read_NetCdf_IsRefused(string name) => Refused(name, path => NetCdfFile.Read(path));

    public Task DisposeAsync() => Task.CompletedTask;

    public void Dispose() => folder.Dispose();

    private void Refused(string name, Action<string> read)
    {
        InputDataException refusal = Assert.Throws<InputDataException>(() => read(Path.Combine(folder.Root, name)));

        Assert.Contains(name, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("a pipe or a device", refusal.Message, StringComparison.Ordinal);
    }
}
