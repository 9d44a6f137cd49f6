using BosFlow.Footage;
using BosFlow.Media.Video;
using BosFlow.TestKit;

namespace BosFlow.Media.Tests;

/// <summary>Videos as cameras write them, read back by the reader of footage.</summary>
public sealed class VideoEncodingTests : IDisposable
{
    private const int Frames = 30;
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(false, 8, 1.5)]
    [InlineData(true, 8, 1.0)]
    [InlineData(true, 10, 1.0)]
    public void Write_GivenRate_IsReachedAndReadBack(bool hevc, int bits, double megabits)
    {
        var encoding = new VideoEncoding { IsHevc = hevc, Bits = bits, MegabitsPerSecond = megabits };
        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("clip.mp4"), Film(160, 120), 30, encoding, CancellationToken.None);

        // One second of film; a second of buffer lets the encoder miss its rate by a third either way.
        double reached = new FileInfo(written.Path).Length * 8 / 1e6 / (Frames / 30.0);
        Assert.InRange(reached, 0.6 * megabits, 1.4 * megabits);
        IFootage footage = Open(written.Path);
        List<Frame> frames = [.. footage.Read([0, 7, 29], CancellationToken.None)];
        Assert.All(frames, frame => Assert.Equal((1 << bits) - 1, frame.Image!.WhiteLevel));
        Assert.All(frames.Zip([0, 7, 29]), pair => Assert.InRange(Difference(pair.First.Image!, Film(160, 120).ElementAt(pair.Second)), 0.0005, 0.06));
    }

    [Theory]
    [InlineData(90)]
    [InlineData(270)]
    public void Write_Rotation_IsSeenUpright(int degrees)
    {
        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("clip.mp4"), Film(64, 48).Take(3), 30, new VideoEncoding { RotationDegrees = degrees }, CancellationToken.None);

        Frame frame = Open(written.Path).Read([2], CancellationToken.None).Single();
        Assert.Equal((64, 48), (frame.Image!.Width, frame.Image.Height));
        Assert.True(Difference(frame.Image, Film(64, 48).ElementAt(2)) < 0.01);
        // Stored otherwise than seen: without the turn the sides or the pictures are exchanged.
        string probe = ToolRun.Collect(ClipMaker.Tools.Ffprobe, ["-v", "error", "-show_entries", "stream_side_data=rotation", "-of", "csv=p=0", "file:" + written.Path], CancellationToken.None).Output;
        Assert.Contains(degrees == 90 ? "-90" : "90", probe, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_Pauses_AreInTheTimeStamps()
    {
        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("clip.mp4"), Film(64, 48), 30, new VideoEncoding { PausesBefore = [4, 9, 9], MegabitsPerSecond = 2 }, CancellationToken.None);
        FootageInfo info = Open(written.Path).Info;
        Assert.Equal(Frames, info.FrameCount);
        Assert.Equal(3 / 30.0, info.TimesSeconds[3], 1e-3);
        Assert.Equal(5 / 30.0, info.TimesSeconds[4], 1e-3);
        Assert.Equal(12 / 30.0, info.TimesSeconds[9], 1e-3);
        Assert.Equal(32 / 30.0, info.TimesSeconds[29], 1e-3);
    }

    [Theory]
    [InlineData(false, 8)]
    [InlineData(true, 10)]
    public void Write_OddSize_KeepsEveryPixel(bool hevc, int bits)
    {
        var encoding = new VideoEncoding { IsHevc = hevc, Bits = bits, MegabitsPerSecond = 4 };
        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("clip.mp4"), Film(63, 49).Take(4), 30, encoding, CancellationToken.None);
        Frame frame = Open(written.Path).Read([3], CancellationToken.None).Single();
        Assert.Equal((63, 49), (frame.Image!.Width, frame.Image.Height));
        Assert.True(Difference(frame.Image, Film(63, 49).ElementAt(3)) < 0.06);
    }

    [Fact]
    public void Write_SameEncoding_GivesTheSameBytes()
    {
        var encoding = new VideoEncoding { MegabitsPerSecond = 1 };
        string first = VideoFileWriter.Write(folder.PathOf("first.mp4"), Film(64, 48), 30, encoding, CancellationToken.None).Path;
        string second = VideoFileWriter.Write(folder.PathOf("second.mp4"), Film(64, 48), 30, encoding, CancellationToken.None).Path;
        Assert.Equal(File.ReadAllBytes(first), File.ReadAllBytes(second));
    }

    [Fact]
    public void RequireTools_NoFfmpeg_SaysWhatToDo()
    {
        InputDataException refusal = Assert.Throws<InputDataException>(() => new VideoEncoding { IsHevc = true }.RequireTools(tools: null, CancellationToken.None));
        Assert.Equal("A video in HEVC needs ffmpeg, which is missing on this machine; install the package ffmpeg, or take the section [video] out of the recipe.", refusal.Message);
    }

    private static IFootage Open(string path) => FootageOpener.Open(new FootageSettings { Video = path }, Path.GetDirectoryName(path)!, CancellationToken.None);

    // Spots that move and noise that no encoder can foretell.
    private static IEnumerable<GrayImage> Film(int width, int height)
    {
        for (int frame = 0; frame < Frames; frame++)
        {
            var random = new Random(frame);
            float[] pixels = new float[width * height];
            for (int i = 0; i < pixels.Length; i++)
                pixels[i] = (float)Math.Round(120 + (80 * Math.Sin(((i % width) + frame) * 0.7) * Math.Cos(i / width * 0.5)) + (6 * random.NextDouble()));
            yield return new GrayImage(width, height, pixels, 255);
        }
    }

    // Root mean square of the difference, both as a share of white.
    private static double Difference(GrayImage read, GrayImage original) =>
        Math.Sqrt(read.Pixels.ToArray().Zip(original.Pixels.ToArray(), (a, b) => Math.Pow((a / read.WhiteLevel) - (b / original.WhiteLevel), 2)).Average());
}
