using System.Buffers.Binary;
using BosFlow.Footage;
using BosFlow.Media.Video;
using BosFlow.TestKit;

namespace BosFlow.Media.Tests;

public sealed class VideoTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Read_H264_GivesNativeLumaCodesOfEveryFrame(VideoDecoder decoder)
    {
        string path = Clip("a b ü.mp4", 12, "-c:v", "libx264", "-pix_fmt", "yuv420p", "-crf", "10");
        byte[] expected = ClipMaker.Luma(path);

        IFootage footage = Open(path, decoder);
        List<Frame> frames = ReadAll(footage);

        Assert.Equal(12, footage.Info.FrameCount);
        Assert.Equal((ClipMaker.Width, ClipMaker.Height), (footage.Info.Width, footage.Info.Height));
        for (int index = 0; index < 12; index++)
        {
            Assert.Null(frames[index].Failure);
            Assert.Equal(235f, frames[index].Image!.WhiteLevel);
            Assert.Equal(index / 25.0, frames[index].TimeSeconds, 9);
            AssertLevels(frames[index].Image!, expected.AsSpan(index * ClipMaker.Width * ClipMaker.Height));
        }
    }

    // Not H.264 alone: codec, container, decoder, white level.
    [Theory]
    [InlineData("x.mov", VideoDecoder.Ffmpeg, 255, "-c:v libx264 -pix_fmt yuvj420p")]
    [InlineData("x.mov", VideoDecoder.Embedded, 255, "-c:v libx264 -pix_fmt yuvj420p")]
    [InlineData("x.avi", VideoDecoder.Ffmpeg, 255, "-c:v mjpeg -q:v 2")]
    [InlineData("x.avi", VideoDecoder.Embedded, 255, "-c:v mjpeg -q:v 2")]
    [InlineData("x.mkv", VideoDecoder.Ffmpeg, 235, "-c:v libx265 -x265-params log-level=none -pix_fmt yuv420p")]
    [InlineData("x.mkv", VideoDecoder.Embedded, 235, "-c:v libx265 -x265-params log-level=none -pix_fmt yuv420p")]
    [InlineData("x.mp4", VideoDecoder.Ffmpeg, 235, "-c:v libx264 -pix_fmt yuv444p")]
    [InlineData("x.mp4", VideoDecoder.Ffmpeg, 235, "-c:v libx264 -pix_fmt yuv422p -bf 3 -g 5")]
    [InlineData("x.avi", VideoDecoder.Ffmpeg, 235, "-c:v libx264 -pix_fmt yuv420p -bf 2")]
    [InlineData("x.ts", VideoDecoder.Ffmpeg, 235, "-c:v libx264 -pix_fmt yuv420p -bf 2")]
    [InlineData("x.mkv", VideoDecoder.Ffmpeg, 255, "-c:v ffv1 -pix_fmt gray")]
    [InlineData("x.mkv", VideoDecoder.Embedded, 255, "-c:v ffv1 -pix_fmt gray")]
    public void Read_CodecAndContainer_GivesNativeLumaCodes(string name, VideoDecoder decoder, float white, string options)
    {
        string path = Clip(name, 10, options.Split(' '));
        // Grey has no luma plane to take out: its codes are the picture.
        byte[] expected = options.Contains("-pix_fmt gray", StringComparison.Ordinal) ? Gray(path) : ClipMaker.Luma(path);

        List<Frame> frames = ReadAll(Open(path, decoder));

        Assert.Equal(10, frames.Count);
        for (int index = 0; index < 10; index++)
        {
            Assert.Null(frames[index].Failure);
            Assert.Equal(white, frames[index].Image!.WhiteLevel);
            AssertLevels(frames[index].Image!, expected.AsSpan(index * ClipMaker.Width * ClipMaker.Height));
        }
    }

    [Fact]
    public void Read_TenBitHevc_KeepsTenBits()
    {
        string path = Clip("ten.mp4", 6, "-c:v", "libx265", "-x265-params", "log-level=none", "-pix_fmt", "yuv420p10le", "-crf", "8");
        byte[] expected = ClipMaker.Luma(path, "gray10le");

        IFootage footage = Open(path, VideoDecoder.Automatic);
        List<Frame> frames = ReadAll(footage);

        Assert.Contains("10 bit", footage.Info.Description, StringComparison.Ordinal);
        Assert.Equal(940f, frames[3].Image!.WhiteLevel);
        int pixels = ClipMaker.Width * ClipMaker.Height;
        var seen = new HashSet<int>();
        for (int i = 0; i < pixels; i++)
        {
            int code = BinaryPrimitives.ReadUInt16LittleEndian(expected.AsSpan(2 * ((3 * pixels) + i)));
            Assert.Equal(code, frames[3].Image!.Pixels[i]);
            seen.Add(code % 4);
        }

        // The two lowest bits are really used, so 8 bits would have lost them.
        Assert.Equal(4, seen.Count);
    }

    [Fact]
    public void Read_TenBitHevcEmbedded_SaysThatBitsAreLostAndStaysNear()
    {
        string path = Clip("ten.mp4", 3, "-vf", "hue=s=0", "-c:v", "libx265", "-x265-params", "log-level=none", "-pix_fmt", "yuv420p10le", "-crf", "8");

        IFootage footage = Open(path, VideoDecoder.Embedded);
        GrayImage embedded = ReadAll(footage)[1].Image!;
        GrayImage native = ReadAll(Open(path, VideoDecoder.Ffmpeg))[1].Image!;

        Assert.Equal(255f, embedded.WhiteLevel);
        Assert.Contains(footage.Info.Warnings, warning => warning.Contains("8 bits", StringComparison.Ordinal));
        Assert.Contains(footage.Info.Warnings, warning => warning.Contains("stretched to full range", StringComparison.Ordinal));
        // Limited range of 10 bits, 64 to 940, against 0 to 255; without colour only the conversion's rounding is left.
        double difference = 0;
        for (int i = 0; i < native.Pixels.Length; i++)
            difference += Math.Abs(Math.Clamp((native.Pixels[i] - 64) * 255 / 876, 0, 255) - embedded.Pixels[i]) / native.Pixels.Length;
        Assert.True(difference < 2, $"mean difference {difference}");
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg, 1e-6)]
    [InlineData(VideoDecoder.Embedded, 1.1e-3)]
    public void Open_VariableFrameRate_TakesTimesFromTheTimeStamps(VideoDecoder decoder, double tolerance)
    {
        // Frames 0, 1, 2, 5, 6, 9 of 25 a second: what a camera that drops frames leaves.
        string path = Clip("vfr.mp4", 6, "-vf", "setpts='(N+2*gte(N\\,3)+2*gte(N\\,5))/25/TB'", "-fps_mode", "passthrough", "-c:v", "libx264", "-pix_fmt", "yuv420p");

        FootageInfo info = Open(path, decoder).Info;

        double[] expected = [0, 0.04, 0.08, 0.2, 0.24, 0.36];
        Assert.Equal(6, info.FrameCount);
        for (int index = 0; index < 6; index++)
            Assert.Equal(expected[index], info.TimesSeconds[index], tolerance);
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Read_RotationMetadata_TurnsAsFfmpegDoes(VideoDecoder decoder)
    {
        string upright = Clip("upright.mp4", 3, "-c:v", "libx264", "-pix_fmt", "yuv420p");
        foreach (string degrees in new[] { "90", "180", "270" })
        {
            string path = folder.PathOf($"turned{degrees}.mp4");
            ClipMaker.Ffmpeg("-i", "file:" + upright, "-c", "copy", "-metadata:s:v", "rotate=" + degrees, "file:" + path);
            byte[] expected = ClipMaker.Luma(path);

            IFootage footage = Open(path, decoder);
            GrayImage image = ReadAll(footage)[0].Image!;

            (int width, int height) = degrees == "180" ? (ClipMaker.Width, ClipMaker.Height) : (ClipMaker.Height, ClipMaker.Width);
            Assert.Equal((width, height), (image.Width, image.Height));
            Assert.Equal((width, height), (footage.Info.Width, footage.Info.Height));
            AssertLevels(image, expected);
        }
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Read_ChosenFrames_AreThoseFrames(VideoDecoder decoder)
    {
        string path = Clip("chosen.mp4", 40, "-c:v", "libx264", "-pix_fmt", "yuv420p", "-bf", "3", "-g", "12");
        byte[] expected = ClipMaker.Luma(path);

        List<Frame> frames = [.. Open(path, decoder).Read([3, 4, 17, 39], CancellationToken.None)];

        Assert.Equal([3, 4, 17, 39], frames.Select(frame => frame.Index));
        foreach (Frame frame in frames)
            AssertLevels(frame.Image!, expected.AsSpan(frame.Index * ClipMaker.Width * ClipMaker.Height));
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Open_GivenFrameRate_CountsTimesAndSaysSo(VideoDecoder decoder)
    {
        string path = Clip("fast.mp4", 5, "-c:v", "libx264", "-pix_fmt", "yuv420p");

        FootageInfo info = FootageOpener.Open(new FootageSettings { Video = path, Decoder = decoder, FrameRateHz = 1000 }, folder.Root, CancellationToken.None).Info;

        Assert.Equal(0.004, info.TimesSeconds[4], 12);
        Assert.Contains(info.Warnings, warning => warning.Contains("frame_rate_hz = 1000", StringComparison.Ordinal));
    }

    [Fact]
    public void Read_RgbVideo_IsLumaOfBt601()
    {
        string path = folder.PathOf("rgb.mkv");
        ClipMaker.Ffmpeg("-f", "lavfi", "-i", "color=c=0x2080C0:size=64x48:rate=25,format=bgr0", "-frames:v", "2", "-c:v", "ffv1", "file:" + path);

        Frame frame = ReadAll(Open(path, VideoDecoder.Ffmpeg))[0];

        Assert.Equal(255f, frame.Image!.WhiteLevel);
        Assert.Equal((0.299f * 0x20) + (0.587f * 0x80) + (0.114f * 0xC0), frame.Image!.Pixels[100], 1f);
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Read_Cancelled_Stops(VideoDecoder decoder)
    {
        string path = Clip("long.mp4", 60, "-c:v", "libx264", "-pix_fmt", "yuv420p");
        using var source = new CancellationTokenSource();
        IFootage footage = Open(path, decoder);

        Assert.Throws<OperationCanceledException>(() =>
        {
            foreach (Frame frame in footage.Read([.. Enumerable.Range(0, 60)], source.Token))
                source.Cancel();
        });
    }

    [Fact]
    public void Open_AutomaticWithoutFfmpeg_FallsBackToOpenCv()
    {
        string path = Clip("a.mp4", 3, "-c:v", "libx264", "-pix_fmt", "yuv420p");

        IFootage footage = VideoOpener.Open(new FootageSettings { Video = path }, folder.Root, tools: null, CancellationToken.None);

        Assert.Contains("decoded by OpenCV", footage.Info.Description, StringComparison.Ordinal);
        Assert.Equal("video, h264 (8 bit, limited range, native luma), decoded by OpenCV 4.13.0", footage.Info.Description);
    }

    [Fact]
    public void Open_StreamThatStrictDecodingRefuses_IsReadLenientlyWithAWarning()
    {
        string path = Clip("a.mp4", 3, "-c:v", "libx264", "-pix_fmt", "yuv420p");
        // Stands in for a camera whose every frame breaks a rule: an ffmpeg that refuses whenever it is to be strict.
        string script = folder.Write("picky", $"#!/bin/sh\ncase \"$*\" in *explode*) exit 1;; esac\nexec '{ClipMaker.Tools.Ffmpeg}' \"$@\"\n");
        ToolRun.Collect("chmod", ["u+x", script], CancellationToken.None);

        IFootage footage = VideoOpener.Open(new FootageSettings { Video = path }, folder.Root, ClipMaker.Tools with { Ffmpeg = script }, CancellationToken.None);

        Assert.Equal("a.mp4 breaks rules of its format in every frame, so it is decoded leniently: damage inside it is not noticed.", Assert.Single(footage.Info.Warnings));
        Assert.All(ReadAll(footage), frame => Assert.Null(frame.Failure));
    }

    [Theory]
    [InlineData("ffmpeg")]
    [InlineData("ffprobe")]
    public void Open_ToolThatStandsStill_IsEndedWithASentence(string tool)
    {
        string path = Clip("a.mp4", 3, "-c:v", "libx264", "-pix_fmt", "yuv420p");
        // Stands in for a disk that does not answer any more; the test ends as soon as the limit is over.
        string script = folder.Write(tool, "#!/bin/sh\nexec sleep 1000\n");
        ToolRun.Collect("chmod", ["u+x", script], CancellationToken.None);
        ExternalTools tools = ClipMaker.Tools with { Patience = TimeSpan.FromSeconds(5) };
        ExternalTools still = tool == "ffmpeg" ? tools with { Ffmpeg = script } : tools with { Ffprobe = script };

        InputDataException error = Assert.Throws<InputDataException>(() =>
            VideoOpener.Open(new FootageSettings { Video = path }, folder.Root, still, CancellationToken.None));

        Assert.Contains($"{tool} gave nothing for", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_FfmpegAskedForButMissing_SaysSo()
    {
        string path = Clip("a.mp4", 3, "-c:v", "libx264", "-pix_fmt", "yuv420p");

        InputDataException error = Assert.Throws<InputDataException>(() =>
            VideoOpener.Open(new FootageSettings { Video = path, Decoder = VideoDecoder.Ffmpeg }, folder.Root, tools: null, CancellationToken.None));

        Assert.Contains("not both on PATH", error.Message, StringComparison.Ordinal);
    }

    private static byte[] Gray(string path)
    {
        ClipMaker.Ffmpeg("-i", "file:" + path, "-f", "rawvideo", "-pix_fmt", "gray", "file:" + path + ".raw");
        return File.ReadAllBytes(path + ".raw");
    }

    private static void AssertLevels(GrayImage image, ReadOnlySpan<byte> expected)
    {
        for (int i = 0; i < image.Pixels.Length; i++)
            Assert.Equal(expected[i], image.Pixels[i]);
    }

    private static List<Frame> ReadAll(IFootage footage) => [.. footage.Read([.. Enumerable.Range(0, footage.Info.FrameCount)], CancellationToken.None)];

    private string Clip(string name, int frames, params string[] options)
    {
        string path = folder.PathOf(name);
        ClipMaker.Pattern(path, frames, options);
        return path;
    }

    private IFootage Open(string path, VideoDecoder decoder) =>
        FootageOpener.Open(new FootageSettings { Video = Path.GetFileName(path), Decoder = decoder }, folder.Root, CancellationToken.None);
}
