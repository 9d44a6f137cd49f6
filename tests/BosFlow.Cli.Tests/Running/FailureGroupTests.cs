using BosFlow.Cli.Running;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Tests.Running;

public sealed class FailureGroupTests
{
    [Fact]
    public void Of_SameWordsWithOtherNumbers_IsOneGroupWithRanges()
    {
        IReadOnlyList<FailureGroup> groups = FailureGroup.Of(
        [
            new FailedFrame(3, "f3", "The file ends early."),
            new FailedFrame(12, "f12", "Only 3.5 % of it is sharp."),
            new FailedFrame(13, "f13", "Only 12 % of it is sharp."),
            new FailedFrame(20, "f20", "Only 3.5 % of it is sharp."),
        ]);

        Assert.Equal(
            ["frames 12-13, 20: Only 3.5 % of it is sharp. (frame 12; the others with other numbers)", "frame 3: The file ends early."],
            groups.Select(group => group.ToString()));
    }

    [Theory]
    [InlineData(new[] { 4 }, 12, "4")]
    [InlineData(new[] { 0, 1, 2, 5, 7, 8 }, 12, "0-2, 5, 7-8")]
    [InlineData(new[] { 0, 2, 4, 5, 6 }, 2, "0, 2 and 3 more")]
    [InlineData(new int[0], 2, "")]
    public void InWords_Numbers_AreRanges(int[] numbers, int most, string words)
    {
        Assert.Equal(words, FrameNumbers.InWords(numbers, most));
    }
}
