using BosFlow.Results.Files;

namespace BosFlow.Results.Tests.Files;

public sealed class DiskRoomTests
{
    [Fact]
    public void Write_RoomForItButNotForTheReserve_WritesNothingAndSaysHowMuchIsNeeded()
    {
        bool written = false;

        string message = Assert.Throws<DiskFullException>(() => new DiskRoom("/data/run", _ => 2_900_000).Write(1_000_000, 2_000_000, () => written = true)).Message;

        Assert.False(written);
        Assert.StartsWith("The disk of /data/run is full: 3.0 MB are needed for what comes next and 2.9 MB are free.", message, StringComparison.Ordinal);
        Assert.Contains("make space and start the same command again", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(28, "is full")]
    [InlineData(122, "your quota there is used up")]
    public void Write_SystemRefusesForLackOfRoom_SaysSo(int error, string words)
    {
        var refusal = new IOException("the system's words", error);

        DiskFullException full = Assert.Throws<DiskFullException>(() => new DiskRoom("/data/run", _ => long.MaxValue).Write(1, 1, () => throw refusal));

        Assert.Contains(words, full.Message, StringComparison.Ordinal);
        Assert.Same(refusal, full.InnerException);
    }

    [Fact]
    public void Write_AnotherError_IsNotTakenForAFullDisk() =>
        Assert.Throws<FileNotFoundException>(() => new DiskRoom("/data/run", _ => long.MaxValue).Write(1, 1, () => throw new FileNotFoundException()));

    [Fact]
    public void IsFull_RealFullDevice_IsRecognised()
    {
        // The system's own device that has no room for anything.
        IOException refusal = Assert.Throws<IOException>(() =>
        {
            using var full = new FileStream("/dev/full", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
            full.WriteByte(1);
        });

        Assert.True(DiskRoom.IsFull(refusal));
    }
}
