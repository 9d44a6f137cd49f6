using BosFlow.Footage;
using BosFlow.TestKit;
using OpenCvSharp;

namespace BosFlow.Media.Tests;

public sealed class PictureReaderTests : IDisposable
{
    // OpenCV names its option after the TIFF tag; its C# binding has no name for it.
    private const int TiffRowsPerStrip = 278;

    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(".png")]
    [InlineData(".tiff")]
    [InlineData(".bmp")]
    public void Read_Gray8_KeepsEveryLevel(string ending)
    {
        using Mat mat = TestPictures.Gray8();

        GrayImage image = Read("Bild ü 1" + ending, TestPictures.Encode(mat, ending));

        Assert.Equal(255f, image.WhiteLevel);
        TestPictures.AssertLevels(image, (x, y) => TestPictures.Level(x, y));
    }

    [Theory]
    [InlineData(".png")]
    [InlineData(".tiff")]
    public void Read_Gray16_KeepsEveryLevel(string ending)
    {
        using Mat mat = TestPictures.Gray16();

        GrayImage image = Read("a" + ending, TestPictures.Encode(mat, ending));

        Assert.Equal(65535f, image.WhiteLevel);
        TestPictures.AssertLevels(image, (x, y) => TestPictures.Level16(x, y));
    }

    // Compression schemes of TIFF: 1 none, 5 LZW, 8 deflate, 32773 PackBits.
    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(8)]
    public void Read_FloatTiff_KeepsNaNAndTurnsInfiniteIntoNaN(int compression)
    {
        using Mat mat = TestPictures.Float();

        GrayImage image = Read("a.tif", TestPictures.Encode(mat, ".tiff", (int)ImwriteFlags.TiffCompression, compression));

        Assert.True(float.IsNaN(image.WhiteLevel));
        TestPictures.AssertLevels(image, (x, y) => float.IsFinite(TestPictures.LevelFloat(x, y)) ? TestPictures.LevelFloat(x, y) : float.NaN);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(8)]
    [InlineData(32773)]
    public void Read_CompressedTiff_KeepsEveryLevelOfEveryStrip(int compression)
    {
        using Mat mat = TestPictures.Gray8(300, 200);

        GrayImage image = Read("a.tif", TestPictures.Encode(mat, ".tiff", (int)ImwriteFlags.TiffCompression, compression, TiffRowsPerStrip, 7));

        for (int y = 0; y < 200; y++)
            for (int x = 0; x < 300; x++)
                Assert.Equal(TestPictures.Level(x, y), image[x, y]);
    }

    [Fact]
    public void Read_DoubleTiff_BecomesFloat()
    {
        using Mat single = TestPictures.Float();
        using var mat = new Mat();
        single.ConvertTo(mat, MatType.CV_64F);

        GrayImage image = Read("a.tif", TestPictures.Encode(mat, ".tiff"));

        TestPictures.AssertLevels(image, (x, y) => float.IsFinite(TestPictures.LevelFloat(x, y)) ? TestPictures.LevelFloat(x, y) : float.NaN);
    }

    // Weights: Recommendation ITU-R BT.601-7, section 2.5.1.
    [Theory]
    [InlineData(".png", false)]
    [InlineData(".png", true)]
    [InlineData(".tiff", false)]
    [InlineData(".tiff", true)]
    [InlineData(".bmp", false)]
    [InlineData(".bmp", true)]
    public void Read_Colour_BecomesLumaOfBt601AndIgnoresAlpha(string ending, bool alpha)
    {
        using Mat mat = TestPictures.Colour8(alpha);

        GrayImage image = Read("a" + ending, TestPictures.Encode(mat, ending));

        TestPictures.AssertLevels(
            image,
            (x, y) => (0.299f * TestPictures.Level(x, y, 2)) + (0.587f * TestPictures.Level(x, y, 1)) + (0.114f * TestPictures.Level(x, y, 0)),
            tolerance: 1e-3f);
    }

    [Fact]
    public void Read_ColourJpeg_MatchesIndependentLumaOfTheSamePng()
    {
        using Mat rough = TestPictures.Colour8();
        using var mat = new Mat();
        Cv2.GaussianBlur(rough, mat, new Size(9, 9), 3);

        GrayImage jpeg = Read("a.jpg", TestPictures.Encode(mat, ".jpg", (int)ImwriteFlags.JpegQuality, 100));
        GrayImage png = Read("a.png", TestPictures.Encode(mat, ".png"));

        // Quality 100 leaves rounding of luma and of the cosine transform: about 1 level.
        TestPictures.AssertLevels(jpeg, (x, y) => png[x, y], tolerance: 2.5f);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Read_ExifOrientation_TurnsAsOpenCvDoes(byte orientation)
    {
        using Mat mat = TestPictures.Gray8();
        byte[] file = WithExifOrientation(TestPictures.Encode(mat, ".jpg", (int)ImwriteFlags.JpegQuality, 100), orientation);
        using Mat expected = Cv2.ImDecode(file, ImreadModes.Grayscale);

        GrayImage image = Read("turned.jpg", file);

        Assert.Equal((expected.Cols, expected.Rows), (image.Width, image.Height));
        for (int y = 0; y < image.Height; y++)
            for (int x = 0; x < image.Width; x++)
                Assert.Equal(expected.At<byte>(y, x), image[x, y]);
    }

    [Fact]
    public void Read_PaletteAndBilevelPng_AreExpanded()
    {
        // Written by hand: 2 x 1 px, palette red and white; CRCs come from the helper that other tests check against OpenCV.
        byte[] palette = HandMadePng.File(2, 1, 8, 3, [0, 0, 1], plte: [255, 0, 0, 255, 255, 255]);
        byte[] bilevel = HandMadePng.File(2, 1, 1, 0, [0, 0b0100_0000]);

        GrayImage fromPalette = Read("p.png", palette);
        GrayImage fromBits = Read("b.png", bilevel);

        Assert.Equal([0.299f * 255, 255f], fromPalette.Pixels.ToArray(), (a, b) => Math.Abs(a - b) < 1e-3);
        Assert.Equal([0f, 255f], fromBits.Pixels.ToArray());
    }

    private GrayImage Read(string name, byte[] file) => PictureReader.Read(folder.Write(name, file));

    // An Exif segment with one entry, right after the start of the file. Source: Exif 2.32, CIPA DC-008, section 4.5.
    private static byte[] WithExifOrientation(byte[] jpeg, byte orientation)
    {
        byte[] segment =
        [
            0xFF, 0xE1, 0, 34, (byte)'E', (byte)'x', (byte)'i', (byte)'f', 0, 0,
            (byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8, 0, 1,
            0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0,
        ];
        return [.. jpeg[..2], .. segment, .. jpeg[2..]];
    }
}
