using System.Globalization;
using System.Text;
using BosFlow.Footage;
using BosFlow.Media.Video;
using BosFlow.TestKit;
using CsCheck;
using OpenCvSharp;

namespace BosFlow.Media.Tests;

public sealed class VideoBadInputTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Open_FileThatIsNoVideo_IsASentence(VideoDecoder decoder)
    {
        folder.Write("text.mp4", Encoding.UTF8.GetBytes("these are notes, not a film\n"));
        folder.Write("noise.mp4", Noise(5000));
        folder.Write("empty.mp4", []);
        using Mat mat = TestPictures.Gray8();
        folder.Write("picture.mp4", TestPictures.Encode(mat, ".png"));

        Refused("text.mp4", decoder, "text.mp4 is no video, whatever its name says: it looks like text; give an MP4, MOV, AVI or MKV file.");
        Refused("noise.mp4", decoder, "noise.mp4 is no video that can be read");
        Refused("empty.mp4", decoder, "empty.mp4 is empty (0 bytes)");
        Refused("picture.mp4", decoder, "picture.mp4 is a picture, not a video: give it under footage.frames.");
        Refused("missing.mp4", decoder, "missing.mp4 does not exist");
        Refused(".", decoder, "is a folder, not a file");
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg, "sound.mp4 holds no video stream, only audio: give the file with the pictures.")]
    [InlineData(VideoDecoder.Embedded, "sound.mp4 is no video that can be read")]
    public void Open_AudioOnly_IsASentence(VideoDecoder decoder, string reason)
    {
        ClipMaker.Ffmpeg("-f", "lavfi", "-i", "sine=frequency=440:duration=0.5", "file:" + folder.PathOf("sound.mp4"));

        Refused("sound.mp4", decoder, reason);
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg, "unclosed.mp4 has no index (its moov atom is missing)")]
    [InlineData(VideoDecoder.Embedded, "unclosed.mp4 is no video that can be read")]
    public void Open_RecordingNeverClosed_IsASentence(VideoDecoder decoder, string reason)
    {
        string path = folder.PathOf("whole.mp4");
        ClipMaker.Pattern(path, 30, "-c:v", "libx264", "-pix_fmt", "yuv420p");
        byte[] whole = File.ReadAllBytes(path);
        folder.Write("unclosed.mp4", whole[..(whole.Length * 6 / 10)]);

        Refused("unclosed.mp4", decoder, reason);
    }

    [Theory]
    [InlineData(VideoDecoder.Ffmpeg)]
    [InlineData(VideoDecoder.Embedded)]
    public void Read_FaststartMp4CutAtSixtyPercent_FailsTheMissingFramesAndKeepsTheOthers(VideoDecoder decoder)
    {
        string path = folder.PathOf("whole.mp4");
        ClipMaker.Pattern(path, 50, "-c:v", "libx264", "-pix_fmt", "yuv420p", "-movflags", "+faststart");
        byte[] expected = ClipMaker.Luma(path);
        byte[] whole = File.ReadAllBytes(path);
        folder.Write("cut.mp4", whole[..(whole.Length * 6 / 10)]);

        IFootage footage = Open("cut.mp4", decoder);
        List<Frame> frames = [.. footage.Read([.. Enumerable.Range(0, footage.Info.FrameCount)], CancellationToken.None)];

        Assert.Equal(50, frames.Count);
        Assert.Contains(footage.Info.Warnings, warning => warning.Contains("cut.mp4 promises 50 frames", StringComparison.Ordinal));
        int good = frames.Count(frame => frame.Failure is null);
        Assert.InRange(good, 20, 40);
        Assert.All(frames.Skip(45), frame => Assert.Contains("promised by the container", frame.Failure, StringComparison.Ordinal));
        foreach (Frame frame in frames.Where(frame => frame.Failure is null))
            Assert.True(frame.Image!.Pixels.ToArray().SequenceEqual(
                expected.Skip(frame.Index * frame.Image.Pixels.Length).Take(frame.Image.Pixels.Length).Select(code => (float)code)));
    }

    [Theory]
    [InlineData("-c:v libx264 -pix_fmt yuv420p -g 10 -bf 0")]
    [InlineData("-c:v libx264 -pix_fmt yuv420p -g 10 -bf 3")]
    [InlineData("-c:v libx265 -x265-params log-level=none -pix_fmt yuv420p -g 10")]
    public void Read_DamageInTheMiddle_NeverGivesAWrongFrame(string options)
    {
        string path = folder.PathOf("whole.mp4");
        ClipMaker.Pattern(path, 50, [.. options.Split(' '), "-movflags", "+faststart"]);
        byte[] expected = ClipMaker.Luma(path);
        byte[] damaged = File.ReadAllBytes(path);
        // The head of the 25th packet: damage that a decoder can notice. H.264 has no checksum, so not every damage is of that kind.
        int packet = PositionOfPacket(path, 24);
        for (int i = 0; i < 16; i++)
            damaged[packet + i] ^= 0x5A;
        folder.Write("damaged.mp4", damaged);

        IFootage footage = Open("damaged.mp4", VideoDecoder.Ffmpeg);
        List<Frame> frames = [.. footage.Read([.. Enumerable.Range(0, 50)], CancellationToken.None)];

        Assert.Equal(50, frames.Count);
        Assert.InRange(frames.Count(frame => frame.Failure is not null), 1, 20);
        foreach (Frame frame in frames.Where(frame => frame.Failure is null))
            Assert.True(
                frame.Image!.Pixels.ToArray().SequenceEqual(expected.Skip(frame.Index * frame.Image.Pixels.Length).Take(frame.Image.Pixels.Length).Select(code => (float)code)),
                $"frame {frame.Index} is wrong");
    }

    [Theory]
    [InlineData("cut.avi", "-c:v mjpeg -q:v 2", "promises 30 frames but ends after")]
    [InlineData("cut.mkv", "-c:v libx264 -pix_fmt yuv420p", "the recording was cut off")]
    public void Open_OtherContainersCut_AreNoticed(string name, string options, string warning)
    {
        string path = folder.PathOf("whole" + Path.GetExtension(name));
        ClipMaker.Pattern(path, 30, options.Split(' '));
        byte[] whole = File.ReadAllBytes(path);
        folder.Write(name, whole[..(whole.Length * 6 / 10)]);

        IFootage footage = Open(name, VideoDecoder.Ffmpeg);

        Assert.Contains(footage.Info.Warnings, sentence => sentence.Contains(warning, StringComparison.Ordinal));
        Assert.Contains(footage.Read([.. Enumerable.Range(0, footage.Info.FrameCount)], CancellationToken.None), frame => frame.Failure is null);
    }

    [Fact]
    public void Open_TrimmedClipWithHiddenFrames_IsNotTakenForDamaged()
    {
        string path = folder.PathOf("whole.mp4");
        ClipMaker.Pattern(path, 50, "-c:v", "libx264", "-pix_fmt", "yuv420p", "-g", "20");
        ClipMaker.Ffmpeg("-ss", "1.1", "-i", "file:" + path, "-c", "copy", "file:" + folder.PathOf("trimmed.mp4"));
        byte[] expected = ClipMaker.Luma(folder.PathOf("trimmed.mp4"));

        IFootage footage = Open("trimmed.mp4", VideoDecoder.Ffmpeg);
        List<Frame> frames = [.. footage.Read([.. Enumerable.Range(0, footage.Info.FrameCount)], CancellationToken.None)];

        Assert.Empty(footage.Info.Warnings);
        Assert.Equal(expected.Length, frames.Count * ClipMaker.Width * ClipMaker.Height);
        Assert.All(frames, frame => Assert.Null(frame.Failure));
        Assert.Equal(expected[..(ClipMaker.Width * ClipMaker.Height)].Select(code => (float)code), frames[0].Image!.Pixels.ToArray());
    }

    [Fact]
    public void Read_MutatedHeaders_GiveFramesOrASentence()
    {
        string path = folder.PathOf("whole.mp4");
        ClipMaker.Pattern(path, 5, "-c:v", "libx264", "-pix_fmt", "yuv420p", "-movflags", "+faststart");
        byte[] whole = File.ReadAllBytes(path);
        string mutated = folder.PathOf("mutated.mp4");

        Gen.Select(Gen.Int[0, 1200], Gen.Byte).Array[1, 4].Sample(
            changes =>
            {
                byte[] file = (byte[])whole.Clone();
                foreach ((int at, byte value) in changes)
                    file[at] = value;
                File.WriteAllBytes(mutated, file);
                try
                {
                    IFootage footage = Open("mutated.mp4", VideoDecoder.Ffmpeg);
                    // A damaged table may promise millions of frames; the first ones tell.
                    foreach (Frame frame in footage.Read([.. Enumerable.Range(0, Math.Min(footage.Info.FrameCount, 10))], CancellationToken.None))
                        Assert.True(frame.Image is null != frame.Failure is null);
                }
                catch (InputDataException error)
                {
                    Assert.DoesNotContain("Exception", error.Message, StringComparison.Ordinal);
                }
            },
            iter: 12,
            threads: 1);
    }

    private static byte[] Noise(int count)
    {
        byte[] bytes = new byte[count];
        new Random(5).NextBytes(bytes);
        return bytes;
    }

    private static int PositionOfPacket(string path, int number)
    {
        ToolOutput output = ToolRun.Collect(
            ClipMaker.Tools.Ffprobe, ["-v", "error", "-show_entries", "packet=pos", "-of", "csv=p=0", "file:" + path], CancellationToken.None);
        return int.Parse(output.Output.Split('\n')[number].Trim(','), CultureInfo.InvariantCulture);
    }

    private void Refused(string name, VideoDecoder decoder, string reason)
    {
        InputDataException error = Assert.Throws<InputDataException>(() => Open(name, decoder));
        Assert.Contains(reason, error.Message, StringComparison.Ordinal);
    }

    private IFootage Open(string name, VideoDecoder decoder) =>
        VideoOpener.Open(new FootageSettings { Video = name, Decoder = decoder }, folder.Root, decoder == VideoDecoder.Ffmpeg ? ClipMaker.Tools : null, CancellationToken.None);
}
