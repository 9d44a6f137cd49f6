using BosFlow.Pipeline;
using CsCheck;

namespace BosFlow.Tests.Pipeline;

public sealed class ShardTests
{
    [Fact]
    public void Of_AnyFramesAndCounts_PutsEveryFrameIntoOneBlockOfNearlyEqualSize() =>
        Gen.Select(Gen.Int[0, 500], Gen.Int[1, 60]).Sample((frameCount, shardCount) =>
        {
            int[] frames = [.. Enumerable.Range(0, frameCount).Select(i => (i * 3) + 1)];
            IReadOnlyList<int>[] blocks = [.. Enumerable.Range(1, shardCount).Select(number => new Shard(number, shardCount).Of(frames))];

            Assert.Equal(frames, blocks.SelectMany(block => block));
            Assert.InRange(blocks.Max(block => block.Count) - blocks.Min(block => block.Count), 0, 1);
        });

    [Fact]
    public void NumberAt_AnyFrame_IsTheShardThatHoldsIt() =>
        Gen.Select(Gen.Int[1, 500], Gen.Int[1, 60]).Sample((frameCount, shardCount) =>
        {
            int[] frames = [.. Enumerable.Range(0, frameCount)];

            Assert.All(frames, frame => Assert.Contains(frame, new Shard(Shard.NumberAt(frame, frameCount, shardCount), shardCount).Of(frames)));
        });

    [Fact]
    public void Of_LargestCounts_DoesNotOverflow()
    {
        int[] frames = new int[1_000_000];

        Assert.Equal(10, new Shard(100_000, 100_000).Of(frames).Count);
    }
}
