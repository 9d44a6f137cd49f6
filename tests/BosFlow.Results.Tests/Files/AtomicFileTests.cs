using BosFlow.Results.Files;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Files;

public sealed class AtomicFileTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Write_ExceptionHalfWay_LeavesTheOldFileAndNothingElse()
    {
        AtomicFile.WriteText(folder.PathOf("a"), "old");

        Assert.Throws<InvalidOperationException>(() => AtomicFile.Write(folder.PathOf("a"), stream =>
        {
            stream.Write("new, but only ha"u8);
            throw new InvalidOperationException();
        }));

        Assert.Equal("old", File.ReadAllText(folder.PathOf("a")));
        Assert.Single(Directory.GetFiles(folder.Root));
    }

    [Fact]
    public void CreateText_OfSeveralAtTheSameMoment_SucceedsOnceAndKeepsItsWords()
    {
        const int Rounds = 100, Writers = 4;
        for (int round = 0; round < Rounds; round++)
        {
            string path = folder.PathOf($"{round}");
            using var start = new Barrier(Writers);
            bool[] made = new bool[Writers];
            Thread[] writers = [.. Enumerable.Range(0, Writers).Select(k => new Thread(() =>
            {
                start.SignalAndWait();
                made[k] = AtomicFile.CreateText(path, $"writer {k}");
            }))];
            foreach (Thread writer in writers)
                writer.Start();
            foreach (Thread writer in writers)
                writer.Join();

            Assert.Equal($"writer {Array.IndexOf(made, true)}", File.ReadAllText(path));
            Assert.Single(made, true);
        }

        Assert.Equal(Rounds, Directory.GetFiles(folder.Root).Length);
    }

    [Fact]
    public void RemoveLeftovers_OfADeadProcessHere_GoesWhileOthersStay()
    {
        string dead = folder.PathOf($"a.nc.{Environment.MachineName}-{int.MaxValue}.part");
        string alive = folder.PathOf($"a.nc.{Environment.MachineName}-{Environment.ProcessId}.part");
        string elsewhere = folder.PathOf($"a.nc.another-{int.MaxValue}.part");
        foreach (string path in new[] { dead, alive, elsewhere })
            File.WriteAllText(path, "half");

        AtomicFile.RemoveLeftovers(folder.Root, ofAnyMachine: false);

        Assert.Equal(new[] { alive, elsewhere }.Order(), Directory.GetFiles(folder.Root).Order());
    }

    [Theory]
    [InlineData("plain")]
    [InlineData("with, comma")]
    [InlineData("a \"quoted\" word")]
    [InlineData("")]
    public void CsvLine_SplitAfterJoin_GivesTheValues(string value) =>
        Assert.Equal(["1", value, "x"], CsvLine.Split(CsvLine.Join(["1", value, "x"])));
}
