using BosFlow.Footage;
using BosFlow.Media.Video;
using BosFlow.TestKit;

namespace BosFlow.Media.Tests;

/// <summary>Frames far apart come from fresh starts at key frames, and are the very same frames.</summary>
public sealed class VideoBurstTests : IDisposable
{
    private static readonly int[] FarApart = [3, 4, 130, 131, 132, 299, 399];
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("a.mp4", "-c:v libx264 -pix_fmt yuv420p -bf 3 -g 24 -preset ultrafast")]
    [InlineData("a.mp4", "-c:v libx264 -pix_fmt yuv420p -bf 2 -g 30 -x264-params open-gop=1")]
    [InlineData("a.mp4", "-c:v libx264 -pix_fmt yuv420p -bf 2 -g 250")]
    [InlineData("a.mp4", "-c:v libx265 -x265-params log-level=none -pix_fmt yuv420p -g 30 -preset ultrafast")]
    [InlineData("a.mkv", "-c:v libx264 -pix_fmt yuv420p -bf 2 -g 30")]
    [InlineData("a.mov", "-c:v mjpeg -q:v 3")]
    [InlineData("a.ts", "-c:v libx264 -pix_fmt yuv420p -bf 2 -g 30")]
    [InlineData("a.avi", "-c:v libx264 -pix_fmt yuv420p -bf 2 -g 30")]
    public void Read_FramesFarApart_AreThoseOfTheWholeClip(string name, string options)
    {
        string path = folder.PathOf(name);
        ClipMaker.Pattern(path, 400, options.Split(' '));
        IFootage footage = FootageOpener.Open(new FootageSettings { Video = path, Decoder = VideoDecoder.Ffmpeg }, folder.Root, CancellationToken.None);
        byte[] expected = ClipMaker.Luma(path, "gray");

        List<Frame> frames = [.. footage.Read(FarApart, CancellationToken.None)];

        Assert.Equal(FarApart, frames.Select(frame => frame.Index));
        foreach (Frame frame in frames)
        {
            Assert.Null(frame.Failure);
            ReadOnlySpan<byte> bytes = expected.AsSpan(frame.Index * ClipMaker.Width * ClipMaker.Height, ClipMaker.Width * ClipMaker.Height);
            for (int i = 0; i < bytes.Length; i++)
                Assert.Equal(bytes[i], frame.Image!.Pixels[i]);
        }
    }

    [Fact]
    public void Split_FramesFarApart_StartsAtTheirKeyFrames()
    {
        // A key frame every 100 frames, without reordering.
        string lines = string.Join('\n', Enumerable.Range(0, 400).Select(i => $"{i},{i},{(i % 100 == 0 ? "K" : "_")}__"));
        PacketIndex packets = PacketIndex.Parse(lines, isCut: false);

        VideoBurst[] bursts = [.. VideoBurst.Split(packets, [3, 4, 130, 205, 399])];

        // From 4 to the key frame 100 and from 130 to 200 it is worth a start, and from 205 to 300 too.
        Assert.Equal([0, 100, 200, 300], bursts.Select(burst => burst.Key));
        Assert.Equal([3, 4, 130, 205, 399], bursts.SelectMany(burst => burst.Indices));
    }

    [Fact]
    public void Split_WithoutStamps_StartsAtTheBeginning()
    {
        string lines = string.Join('\n', Enumerable.Range(0, 400).Select(_ => "N/A,N/A,K__"));

        VideoBurst burst = Assert.Single(VideoBurst.Split(PacketIndex.Parse(lines, isCut: false), [3, 399]));

        Assert.Equal(0, burst.Key);
    }
}
