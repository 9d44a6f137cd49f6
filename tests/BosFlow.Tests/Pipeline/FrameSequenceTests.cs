using BosFlow.Footage;
using BosFlow.Pipeline;

namespace BosFlow.Tests.Pipeline;

public sealed class FrameSequenceTests
{
    [Fact]
    public void Done_FrameThatTheNextIsComparedWith_IsGivenBackOnlyAfterIt()
    {
        var footage = new GivenBack();
        var sequence = new FrameSequence(footage, findsRepeats: true);
        using IEnumerator<Frame> frames = sequence.Read([1, 2], CancellationToken.None).GetEnumerator();

        frames.MoveNext();
        Frame first = frames.Current;
        sequence.Done(first);
        Assert.Equal([0], footage.Indices); // it was read for the comparison alone
        frames.MoveNext();

        Assert.Equal([0, 1], footage.Indices);
        Assert.Null(frames.Current.RepeatOf);
    }

    [Fact]
    public void Done_AfterTheNextFrameWasRead_GivesBackAtOnce()
    {
        var footage = new GivenBack();
        var sequence = new FrameSequence(footage, findsRepeats: true);
        Frame[] frames = [.. sequence.Read([1, 2], CancellationToken.None)];

        Assert.Equal([0], footage.Indices);
        sequence.Done(frames[0]);

        Assert.Equal([0, 1], footage.Indices);
    }

    [Fact]
    public void Done_NobodyLooksForRepeats_GivesBackAtOnce()
    {
        var footage = new GivenBack();
        var sequence = new FrameSequence(footage, findsRepeats: false);

        foreach (Frame frame in sequence.Read([1, 2], CancellationToken.None))
            sequence.Done(frame);

        Assert.Equal([1, 2], footage.Indices);
    }

    /// <summary>Pictures of one pixel that holds the number of the frame; notes which of them came back.</summary>
    private sealed class GivenBack : IFootage
    {
        public FootageInfo Info => throw new InvalidOperationException("Nobody asks.");

        public List<int> Indices { get; } = [];

        public void GiveBack(GrayImage picture) => Indices.Add((int)picture[0, 0]);

        public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken) =>
            indices.Select(index => new Frame(index, index, "made in memory", new GrayImage(1, 1, [index], 255), null));
    }
}
