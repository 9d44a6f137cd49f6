using BosFlow.Footage;
using CsCheck;

namespace BosFlow.Tests.Footage;

public sealed class FrameSelectionTests
{
    // The expected lists are those of Python's slices, range(10)[text]: its language reference, section "Slicings".
    [Theory]
    [InlineData("2:5", new[] { 2, 3, 4 })]
    [InlineData("::4", new[] { 0, 4, 8 })]
    [InlineData("-3:", new[] { 7, 8, 9 })]
    [InlineData(":-8", new[] { 0, 1 })]
    [InlineData("1:10:3", new[] { 1, 4, 7 })]
    [InlineData(" 8 : ", new[] { 8, 9 })]
    [InlineData("-10:1", new[] { 0 })]
    [InlineData("9", new[] { 9 })]
    [InlineData("-1", new[] { 9 })]
    [InlineData("3::2147483647", new[] { 3 })]
    public void Parse_Range_IsHalfOpenAndCountsFromEnd(string text, int[] expected) =>
        Assert.Equal(expected, FrameSelection.Parse(text, 10, "footage.use"));

    [Theory]
    [InlineData("5:5", "leaves no frame")]
    [InlineData("6:2", "leaves no frame")]
    [InlineData("10:", "leaves no frame")]
    [InlineData("0:11", "reaches outside")]
    [InlineData("-11:", "reaches outside")]
    [InlineData("10", "reaches outside")]
    [InlineData("-11", "reaches outside")]
    [InlineData("0:5:0", "step")]
    [InlineData("5:0:-1", "step")]
    [InlineData("1:2:3:4", "no range")]
    [InlineData("", "no range")]
    [InlineData("a:b", "no range")]
    [InlineData("1.5:3", "no range")]
    [InlineData("0:99999999999", "no range")]
    public void Parse_UnusableText_SaysWhichKeyAndWhy(string text, string reason)
    {
        InputDataException error = Assert.Throws<InputDataException>(() => FrameSelection.Parse(text, 10, "footage.use"));

        Assert.StartsWith($"footage.use = \"{text}\"", error.Message, StringComparison.Ordinal);
        Assert.Contains(reason, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_AnyUsableRange_IsAscendingInsideAndSpacedByStep() =>
        Gen.Select(Gen.Int[1, 50], Gen.Int[0, 49], Gen.Int[1, 9]).Where((count, start, _) => start < count).Sample((count, start, step) =>
        {
            IReadOnlyList<int> frames = FrameSelection.Parse(FormattableString.Invariant($"{start - count}::{step}"), count, "k");
            return frames[0] == start && frames[^1] < count && frames[^1] + step >= count
                && frames.Zip(frames.Skip(1)).All(pair => pair.Second - pair.First == step);
        });

    [Fact]
    public void Resolve_Nothing_TakesAll() => Assert.Equal([0, 1, 2], FrameSelection.Resolve(new FootageSettings(), Info(0, 0.1, 0.4)));

    [Fact]
    public void Resolve_Seconds_GoesByTimeStampsNotByFrameNumber()
    {
        FootageInfo info = Info(0, 0.1, 0.4, 0.5, double.NaN);

        Assert.Equal([1, 2], FrameSelection.Resolve(new FootageSettings { UseSeconds = (0.1, 0.4) }, info));
    }

    [Fact]
    public void Resolve_SecondsBeyondEnd_NamesTheLength()
    {
        InputDataException error = Assert.Throws<InputDataException>(() => FrameSelection.Resolve(new FootageSettings { UseSeconds = (2, 3) }, Info(0, 0.1, 0.4)));

        Assert.Equal("footage.use_seconds = [2, 3] leaves no frame: the footage runs from 0 s to 0.4 s; give times within.", error.Message);
    }

    [Fact]
    public void Resolve_SecondsWithoutTimeStamps_AsksForFrameRate()
    {
        InputDataException error = Assert.Throws<InputDataException>(() => FrameSelection.Resolve(new FootageSettings { UseSeconds = (0, 3) }, Info(double.NaN, double.NaN)));

        Assert.Contains("frame_rate_hz", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3, 1)]
    [InlineData(double.NaN, 1)]
    public void Resolve_SecondsInWrongOrder_IsRefused(double start, double stop) =>
        Assert.Throws<InputDataException>(() => FrameSelection.Resolve(new FootageSettings { UseSeconds = (start, stop) }, Info(0, 5)));

    [Fact]
    public void Resolve_BothChoices_IsRefused() =>
        Assert.Throws<InputDataException>(() => FrameSelection.Resolve(new FootageSettings { Use = "0:1", UseSeconds = (0, 1) }, Info(0, 1)));

    private static FootageInfo Info(params double[] times) =>
        new() { Width = 4, Height = 3, TimesSeconds = times, Files = [], Description = "test" };
}
