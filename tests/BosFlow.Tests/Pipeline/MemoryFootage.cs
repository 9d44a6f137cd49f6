using BosFlow.Footage;

namespace BosFlow.Tests.Pipeline;

/// <summary>Footage made by a function; counts how many frames were read ahead of the work.</summary>
internal sealed class MemoryFootage : IFootage
{
    private readonly Func<int, Frame> make;
    private int read;

    public MemoryFootage(int width, int height, int count, Func<int, Frame> make)
    {
        this.make = make;
        Info = new FootageInfo
        {
            Width = width,
            Height = height,
            TimesSeconds = [.. Enumerable.Range(0, count).Select(i => i / 50.0)],
            Files = [],
            Description = "made in memory",
        };
    }

    public FootageInfo Info { get; init; }

    /// <summary>Whether pictures that are given back are overwritten, as their memory would be by later frames. Each frame needs a picture of its own then.</summary>
    public bool Overwrites { get; init; }

    public int FramesRead => Volatile.Read(ref read);

    public void GiveBack(GrayImage picture)
    {
        if (Overwrites)
            Array.Fill(picture.LevelMemory!, float.NaN);
    }

    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        foreach (int index in indices)
        {
            cancellationToken.ThrowIfCancellationRequested();
            Frame frame = make(index);
            Interlocked.Increment(ref read);
            yield return frame;
        }
    }
}
