using BosFlow.Footage;
using BosFlow.Media.Video;
using BosFlow.TestKit;

namespace BosFlow.Media.Tests;

public sealed class VideoFileWriterTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    // Odd sides need another chroma format.
    [Theory]
    [InlineData(64, 48)]
    [InlineData(63, 49)]
    public void Write_ByFfmpeg_KeepsGreyLevelsNearlyAndTimesExactly(int width, int height)
    {
        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("film ü.mp4"), Film(width, height, 255), 29.97, CancellationToken.None);

        Assert.StartsWith("H.264", written.Encoding, StringComparison.Ordinal);
        Assert.Equal(5, written.FrameCount);
        foreach (VideoDecoder decoder in width % 2 == 0 ? new[] { VideoDecoder.Ffmpeg, VideoDecoder.Embedded } : [VideoDecoder.Ffmpeg])
        {
            IFootage footage = Open(written.Path, decoder);
            List<Frame> frames = [.. footage.Read([0, 1, 2, 3, 4], CancellationToken.None)];
            Assert.Equal(3 / 29.97, footage.Info.TimesSeconds[3], 1.1e-3);
            foreach ((Frame frame, GrayImage original) in frames.Zip(Film(width, height, 255)))
            {
                Assert.Equal(255f, frame.Image!.WhiteLevel);
                // Quality 6 leaves errors of a grey level or two, against a pattern of 200.
                Assert.True(RootMeanSquare(frame.Image!, original) < 1.5, $"{RootMeanSquare(frame.Image!, original)}");
            }
        }
    }

    [Fact]
    public void Write_WithoutFfmpeg_IsLosslessInAvi()
    {
        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("film.mp4"), Film(64, 48, 255), 25, tools: null, CancellationToken.None);

        Assert.Equal(folder.PathOf("film.avi"), written.Path);
        Assert.StartsWith("FFV1, lossless, OpenCV", written.Encoding, StringComparison.Ordinal);
        foreach (VideoDecoder decoder in new[] { VideoDecoder.Ffmpeg, VideoDecoder.Embedded })
        {
            IFootage footage = Open(written.Path, decoder);
            Assert.Equal(0.08, footage.Info.TimesSeconds[2], 9);
            foreach ((Frame frame, GrayImage original) in footage.Read([0, 1, 2, 3, 4], CancellationToken.None).Zip(Film(64, 48, 255)))
                Assert.Equal(original.Pixels.ToArray(), frame.Image!.Pixels.ToArray());
        }
    }

    [Fact]
    public void Write_SixteenBitsAndNaN_AreScaledToEightBits()
    {
        float[] pixels = [.. Enumerable.Repeat(65535f, 64 * 48)];
        pixels[0] = float.NaN;
        pixels[1] = 257 * 100.4f;
        pixels[2] = -5;

        WrittenVideo written = VideoFileWriter.Write(folder.PathOf("a.mkv"), [new GrayImage(64, 48, pixels, 65535)], 25, tools: null, CancellationToken.None);

        GrayImage image = Assert.Single(Open(written.Path, VideoDecoder.Ffmpeg).Read([0], CancellationToken.None)).Image!;
        Assert.Equal([0f, 100f, 0f, 255f], image.Pixels[..4].ToArray());
    }

    [Fact]
    public void Write_SameFramesTwice_GivesTheSameBytes()
    {
        WrittenVideo first = VideoFileWriter.Write(folder.PathOf("a.mp4"), Film(64, 48, 255), 25, CancellationToken.None);
        WrittenVideo second = VideoFileWriter.Write(folder.PathOf("b.mp4"), Film(64, 48, 255), 25, CancellationToken.None);

        Assert.Equal(File.ReadAllBytes(first.Path), File.ReadAllBytes(second.Path));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Write_CancelledOrFailing_LeavesNoFile(bool useFfmpeg)
    {
        ExternalTools? tools = useFfmpeg ? ClipMaker.Tools : null;
        using var source = new CancellationTokenSource();

        Assert.Throws<OperationCanceledException>(() => VideoFileWriter.Write(folder.PathOf("a.mp4"), CancelAfterTwo(source), 25, tools, source.Token));
        Assert.Throws<ArgumentException>(() => VideoFileWriter.Write(folder.PathOf("a.mp4"), [], 25, tools, CancellationToken.None));
        Assert.Throws<ArgumentException>(() => VideoFileWriter.Write(folder.PathOf("a.mp4"), [.. Film(64, 48, 255), .. Film(32, 48, 255)], 25, tools, CancellationToken.None));
        Assert.Throws<ArgumentException>(() => VideoFileWriter.Write(folder.PathOf("a.mp4"), Film(64, 48, float.NaN), 25, tools, CancellationToken.None));

        Assert.Empty(Directory.EnumerateFiles(folder.Root));
    }

    [Fact]
    public void Write_FolderMissing_IsASentence()
    {
        InputDataException error = Assert.Throws<InputDataException>(() =>
            VideoFileWriter.Write(Path.Combine(folder.Root, "no", "a.mp4"), Film(64, 48, 255), 25, CancellationToken.None));

        Assert.Contains("check the folder", error.Message, StringComparison.Ordinal);
    }

    private static IEnumerable<GrayImage> CancelAfterTwo(CancellationTokenSource source)
    {
        int count = 0;
        foreach (GrayImage image in Film(64, 48, 255))
        {
            if (++count > 2)
                source.Cancel();
            yield return image;
        }
    }

    // Dots that move by 0.3 px a frame.
    private static List<GrayImage> Film(int width, int height, float white) => [.. Enumerable.Range(0, 5).Select(frame =>
    {
        float[] pixels = new float[width * height];
        for (int y = 0; y < height; y++)
            for (int x = 0; x < width; x++)
                pixels[(y * width) + x] = MathF.Round(128 + (100 * MathF.Sin((x - (0.3f * frame)) * 0.9f) * MathF.Cos(y * 0.8f)));
        return new GrayImage(width, height, pixels, white);
    })];

    private static double RootMeanSquare(GrayImage first, GrayImage second)
    {
        double sum = 0;
        for (int i = 0; i < first.Pixels.Length; i++)
            sum += Math.Pow(first.Pixels[i] - second.Pixels[i], 2);
        return Math.Sqrt(sum / first.Pixels.Length);
    }

    private IFootage Open(string path, VideoDecoder decoder) =>
        FootageOpener.Open(new FootageSettings { Video = path, Decoder = decoder }, folder.Root, CancellationToken.None);
}
