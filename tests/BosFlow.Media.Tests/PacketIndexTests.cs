using BosFlow.Media.Video;

namespace BosFlow.Media.Tests;

public sealed class PacketIndexTests
{
    // Two groups, each I P B: decoded 0, 2, 1 | 3, 5, 4 in the order of display.
    private const string TwoGroups = "0,-1,K_\n20,0,__\n10,10,__\n30,20,K_\n50,30,__\n40,40,__\n";

    [Fact]
    public void Parse_ReorderedFrames_NumbersThemAsTheyAreShown()
    {
        PacketIndex packets = PacketIndex.Parse(TwoGroups, isCut: false);

        Assert.True(packets.HasStamps);
        Assert.Equal([0L, 10, 20, 30, 40, 50], packets.Stamps);
        Assert.Equal(2, packets.IndexOf(20));
        Assert.Null(packets.IndexOf(25));
        Assert.Equal([0, 2, 1, 3, 5, 4], Enumerable.Range(0, 6).Select(packets.DecodedAt));
        Assert.Equal([0, 0, 0, 3, 3, 3], Enumerable.Range(0, 6).Select(packets.GroupStart));
        Assert.Equal([0, 2, 2, 3, 5, 5], Enumerable.Range(0, 6).Select(packets.KnownAfter));
    }

    [Fact]
    public void Parse_HiddenFrames_AreDecodedButNotCounted()
    {
        PacketIndex packets = PacketIndex.Parse("-20,-20,KD\n-10,-10,_D\n0,0,__\n10,10,__\nside_data,\n", isCut: false);

        Assert.Equal((2, 2), (packets.Count, packets.HiddenCount));
        Assert.Equal(0, packets.GroupStart(1));
    }

    [Fact]
    public void Parse_LeadingFrameOfAnOpenGroup_DependsOnTheGroupBefore()
    {
        // The key frame shown at 30 is followed by a frame shown before it.
        PacketIndex packets = PacketIndex.Parse("0,0,K_\n10,10,__\n30,20,K_\n20,30,__\n", isCut: false);

        Assert.Equal(0, packets.GroupStart(2));
        Assert.Equal(2, packets.GroupStart(3));
    }

    [Fact]
    public void Parse_CutFile_LeavesOutFramesWhoseNumberIsUnknown()
    {
        PacketIndex packets = PacketIndex.Parse("0,-1,K_\n20,0,__\n10,10,__\n50,20,__\n", isCut: true);

        Assert.Equal([0L, 10, 20], packets.Stamps);
        Assert.Equal((3, 4), (packets.Count, packets.HeldCount));
    }

    [Theory]
    [InlineData("N/A,0,K_\nN/A,1,__\n")]
    [InlineData("5,0,K_\n5,1,__\n")]
    public void Parse_MissingOrDoubleStamps_CountsInTheOrderOfTheFile(string lines)
    {
        PacketIndex packets = PacketIndex.Parse(lines, isCut: false);

        Assert.False(packets.HasStamps);
        Assert.Equal(2, packets.Count);
        Assert.Equal([0, 1], Enumerable.Range(0, 2).Select(packets.DecodedAt));
    }

    [Fact]
    public void Parse_StampFarAhead_DoesNotHoldBackTheOthers()
    {
        string lines = "0,0,K_\n999999,1,__\n" + string.Concat(Enumerable.Range(1, 100).Select(i => FormattableString.Invariant($"{i},{i + 1},__\n")));

        Assert.Equal(5 + 16, PacketIndex.Parse(lines, isCut: false).KnownAfter(5));
    }

    [Theory]
    [InlineData(120, 120)]
    [InlineData(4294967295, 0)]
    [InlineData(-1, 0)]
    [InlineData(double.NaN, 0)]
    public void Promised_Count_IsBelievedWithinReason(double count, int expected) => Assert.Equal(expected, VideoLimits.Promised(count));

    [Fact]
    public void Tracker_MissingFrame_SpoilsItsGroupOnly()
    {
        var tracker = new DamageTracker(PacketIndex.Parse(TwoGroups, isCut: false), 6, start: 0);

        tracker.Came(0);
        tracker.Came(1);
        Assert.True(tracker.IsDecided(0));
        // Frame 1 is predicted from frame 2, of which nothing is known yet.
        Assert.False(tracker.IsDecided(1));
        tracker.Came(3);
        Assert.True(tracker.IsDecided(1));
        tracker.End();

        Assert.True(tracker.IsMissing(2));
        Assert.Equal(2, tracker.Culprit(1));
        Assert.Null(tracker.Culprit(0));
        Assert.Null(tracker.Culprit(3));
        Assert.True(tracker.IsMissing(4));
    }
}
