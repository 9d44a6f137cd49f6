using BosFlow.Results.Files;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Files;

public sealed class FileSetTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    [Fact]
    public void Commit_SeveralFiles_AllThereAndNothingElse()
    {
        folder.Write("b.txt", "old");
        using (var files = new FileSet())
        {
            files.Write(folder.PathOf("a.txt"), stream => stream.Write("one"u8));
            files.Write(folder.PathOf("b.txt"), stream => stream.Write("two"u8));
            Assert.Equal("old", File.ReadAllText(folder.PathOf("b.txt")));
            files.Commit();
        }

        Assert.Equal("one", File.ReadAllText(folder.PathOf("a.txt")));
        Assert.Equal("two", File.ReadAllText(folder.PathOf("b.txt")));
        Assert.Equal(2, Directory.GetFiles(folder.Root).Length);
    }

    [Fact]
    public void Write_SecondFails_LeavesNothingAndOldFilesAsTheyWere()
    {
        folder.Write("a.txt", "old");
        Assert.Throws<InvalidOperationException>(() =>
        {
            using var files = new FileSet();
            files.Write(folder.PathOf("a.txt"), stream => stream.Write("new"u8));
            files.Write(folder.PathOf("b.txt"), _ => throw new InvalidOperationException());
        });

        Assert.Equal([folder.PathOf("a.txt")], Directory.GetFiles(folder.Root));
        Assert.Equal("old", File.ReadAllText(folder.PathOf("a.txt")));
    }

    public void Dispose() => folder.Dispose();
}
