using BosFlow.Results.Files;

namespace BosFlow.Results.Tests.Files;

public sealed class AtomicFileTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Write_ExceptionHalfWay_LeavesTheOldFileAndNothingElse()
    {
        AtomicFile.WriteText(folder.File("a"), "old");

        Assert.Throws<InvalidOperationException>(() => AtomicFile.Write(folder.File("a"), stream =>
        {
            stream.Write("new, but only ha"u8);
            throw new InvalidOperationException();
        }));

        Assert.Equal("old", File.ReadAllText(folder.File("a")));
        Assert.Single(Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void RemoveLeftovers_OfADeadProcessHere_GoesWhileOthersStay()
    {
        string dead = folder.File($"a.nc.{Environment.MachineName}-{int.MaxValue}.part");
        string alive = folder.File($"a.nc.{Environment.MachineName}-{Environment.ProcessId}.part");
        string elsewhere = folder.File($"a.nc.another-{int.MaxValue}.part");
        foreach (string path in new[] { dead, alive, elsewhere })
            File.WriteAllText(path, "half");

        AtomicFile.RemoveLeftovers(folder.Path);

        Assert.Equal(new[] { alive, elsewhere }.Order(), Directory.GetFiles(folder.Path).Order());
    }

    [Theory]
    [InlineData("plain")]
    [InlineData("with, comma")]
    [InlineData("a \"quoted\" word")]
    [InlineData("")]
    public void CsvLine_SplitAfterJoin_GivesTheValues(string value) =>
        Assert.Equal(["1", value, "x"], CsvLine.Split(CsvLine.Join(["1", value, "x"])));
}
