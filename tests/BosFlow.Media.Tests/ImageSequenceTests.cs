using System.Text;
using BosFlow.Footage;
using BosFlow.TestKit;
using OpenCvSharp;

namespace BosFlow.Media.Tests;

public sealed class ImageSequenceTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Open_Glob_SortsNaturallyAndReadsTheAskedFrames()
    {
        foreach (int number in new[] { 10, 9, 1, 2 })
            WritePicture($"Bilder ü/frame {number}.png", (byte)number);
        WritePicture("Bilder ü/._frame 3.png", 3);
        folder.Write("Bilder ü/notes.txt", "not a frame");

        IFootage footage = Open(new FootageSettings { Frames = ["Bilder ü/*.png"], FrameRateHz = 50 });
        List<Frame> frames = [.. footage.Read([1, 3], CancellationToken.None)];

        Assert.Equal(4, footage.Info.FrameCount);
        Assert.Equal([0, 0.02, 0.04, 0.06], footage.Info.TimesSeconds);
        Assert.Equal(["frame 1.png", "frame 2.png", "frame 9.png", "frame 10.png"], footage.Info.Files.Select(Path.GetFileName));
        Assert.Equal([1, 3], frames.Select(frame => frame.Index));
        Assert.Equal([2f, 10f], frames.Select(frame => frame.Image![0, 0]));
        Assert.Equal(Path.Combine("Bilder ü", "frame 10.png"), frames[1].Source);
        Assert.Equal("image sequence, 4 files, PNG, 8 bit, grey", footage.Info.Description);
        Assert.Empty(footage.Info.Warnings);
    }

    [Fact]
    public void Open_WildcardsInFolders_FindsAll()
    {
        WritePicture("take 1/raw/a1.png", 1);
        WritePicture("take 10/raw/a1.png", 10);
        WritePicture("take 2/raw/a1.png", 2);
        WritePicture("take 3/a1.png", 3);
        WritePicture("other/raw/a1.png", 4);

        IFootage footage = Open(new FootageSettings { Frames = ["take */raw/a?.png"] });

        Assert.Equal([1f, 2f, 10f], footage.Read([0, 1, 2], CancellationToken.None).Select(frame => frame.Image![0, 0]));
        Assert.All(footage.Info.TimesSeconds, time => Assert.True(double.IsNaN(time)));
    }

    [Fact]
    public void Open_List_KeepsItsOrderAndNamesWithWildcardLetters()
    {
        WritePicture("b.png", 1);
        WritePicture("what?.png", 2);

        IFootage footage = Open(new FootageSettings { Frames = ["what?.png", folder.PathOf("b.png")] });

        Assert.Equal([2f, 1f], footage.Read([0, 1], CancellationToken.None).Select(frame => frame.Image![0, 0]));
    }

    [Fact]
    public void Open_FrameOfAnotherSize_NamesBothFilesAndSizes()
    {
        WritePicture("f1.png", 1);
        WritePicture("f2.png", 2, 20, 10);

        Assert.Equal("f2.png is 20 x 10 px, but f1.png is 16 x 12: all frames must have one size, so leave the odd one out.", Refused("f*.png"));
    }

    [Fact]
    public void Open_PatternWithoutMatch_SaysSo() => Assert.StartsWith("The pattern *.png matches no file in", Refused("*.png"), StringComparison.Ordinal);

    [Fact]
    public void Open_PatternInMissingFolder_SaysSo() => Assert.Contains("which does not exist", Refused("nowhere/*.png"), StringComparison.Ordinal);

    [Fact]
    public void Open_MissingFile_SaysSo() => Assert.StartsWith("a.png does not exist", Refused("a.png"), StringComparison.Ordinal);

    [Fact]
    public void Open_FolderInsteadOfFiles_ShowsThePattern()
    {
        WritePicture("frames/a.png", 1);

        Assert.Equal("frames is a folder, not a file: write a pattern such as frames/*.png.", Refused("frames"));
    }

    [Theory]
    [InlineData("", "f2.png is empty (0 bytes)")]
    [InlineData("these are notes", "f2.png is no PNG, TIFF, JPEG or BMP picture, whatever its name says: it looks like text; leave it out, or convert it to one of these.")]
    public void Open_OneFileIsNoPicture_IsRefusedByName(string content, string reason)
    {
        WritePicture("f1.png", 1);
        folder.Write("f2.png", Encoding.UTF8.GetBytes(content));

        Assert.StartsWith(reason, Refused("f*.png"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, 0, "No footage is given")]
    [InlineData("clip.mp4", 1, "footage.frames and footage.video are both given")]
    public void Open_NeitherOrBothKinds_IsRefused(string? video, int patterns, string reason)
    {
        InputDataException error = Assert.Throws<InputDataException>(() => Open(new FootageSettings { Video = video, Frames = [.. Enumerable.Repeat("a.png", patterns)] }));

        Assert.StartsWith(reason, error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-25)]
    [InlineData(double.NaN)]
    public void Open_ImpossibleFrameRate_IsRefused(double rate)
    {
        InputDataException error = Assert.Throws<InputDataException>(() => Open(new FootageSettings { Frames = ["a.png"], FrameRateHz = rate }));

        Assert.Contains("footage.frame_rate_hz", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_DamagedFrame_ComesWithItsFailureAndTheOthersFollow()
    {
        WritePicture("f1.png", 1);
        string damaged = WritePicture("f2.png", 2);
        WritePicture("f3.png", 3);
        File.WriteAllBytes(damaged, File.ReadAllBytes(damaged)[..^20]);

        List<Frame> frames = [.. Open(new FootageSettings { Frames = ["f*.png"] }).Read([0, 1, 2], CancellationToken.None)];

        Assert.Null(frames[1].Image);
        Assert.StartsWith("f2.png is truncated: the PNG file ends after", frames[1].Failure, StringComparison.Ordinal);
        Assert.Equal([1f, 3f], new[] { frames[0], frames[2] }.Select(frame => frame.Image![0, 0]));
    }

    [Fact]
    public void Read_FrameGoneSinceOpening_ComesWithItsFailure()
    {
        string path = WritePicture("f1.png", 1);
        IFootage footage = Open(new FootageSettings { Frames = ["f1.png"] });
        File.Delete(path);

        Assert.StartsWith("f1.png does not exist", Assert.Single(footage.Read([0], CancellationToken.None)).Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_Cancelled_StopsBetweenFrames()
    {
        WritePicture("f1.png", 1);
        using var source = new CancellationTokenSource();
        IFootage footage = Open(new FootageSettings { Frames = ["f1.png"] });
        source.Cancel();

        Assert.Throws<OperationCanceledException>(() => footage.Read([0], source.Token).ToList());
    }

    [Fact]
    public void Open_MixedDepths_AreNamedInAWarning()
    {
        using Mat deep = TestPictures.Gray16();
        using Mat flat = TestPictures.Gray8();
        folder.Write("a1.png", TestPictures.Encode(flat, ".png"));
        folder.Write("a2.tif", TestPictures.Encode(deep, ".tiff"));

        FootageInfo info = Open(new FootageSettings { Frames = ["a*"] }).Info;

        Assert.Equal("The frames are of different kinds (PNG, 8 bit, grey and TIFF, 16 bit, grey); they are scaled to the reference's grey levels.", Assert.Single(info.Warnings));
    }

    private string Refused(string pattern) =>
        Assert.Throws<InputDataException>(() => Open(new FootageSettings { Frames = [pattern] })).Message;

    private IFootage Open(FootageSettings settings) => FootageOpener.Open(settings, folder.Root, CancellationToken.None);

    private string WritePicture(string name, byte level, int width = 16, int height = 12)
    {
        using var mat = new Mat(height, width, MatType.CV_8UC1, new Scalar(level));
        return folder.Write(name, TestPictures.Encode(mat, ".png"));
    }
}
