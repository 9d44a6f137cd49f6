using System.Text;
using CsCheck;
using BosFlow.TestKit;
using OpenCvSharp;

namespace BosFlow.Media.Tests;

public sealed class PictureReaderBadInputTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Read_MissingFile_SaysSo() => Refused(folder.PathOf("nowhere.png"), "does not exist");

    [Fact]
    public void Read_MissingFolder_SaysSo() => Refused(folder.PathOf("no/where.png"), "does not exist");

    [Fact]
    public void Read_EmptyFile_SaysSo() => Refused(folder.Write("empty.png", []), "is empty (0 bytes)");

    [Fact]
    public void Read_Folder_SaysSo() => Refused(folder.Root, "is a folder, not a file");

    [Fact]
    public void Open_PermissionDenied_SaysHowToMendIt()
    {
        string path = folder.Write("locked.png", [1]);

        InputDataException error = Assert.Throws<InputDataException>(() => InputFile.Open(path, "locked.png", _ => throw new UnauthorizedAccessException()));

        Assert.Equal("locked.png may not be read: give yourself permission to read it (chmod u+r).", error.Message);
    }

    [Fact]
    public void Read_TextRenamedPng_IsRecognised() =>
        Refused(folder.Write("notes.png", Encoding.UTF8.GetBytes("frame;time\n1;0.5\n")), "is no PNG, TIFF, JPEG or BMP picture, whatever its name says: it looks like text; leave it out, or convert it to one of these.");

    [Fact]
    public void Read_OtherFileRenamedPng_IsRecognised() =>
        Refused(folder.Write("clip.png", [0, 0, 0, 0x20, (byte)'f', (byte)'t', (byte)'y', (byte)'p', 0, 0]), "its first bytes are those of no such file");

    [Fact]
    public void Read_PngNamedJpg_IsReadAsPng()
    {
        using Mat mat = TestPictures.Gray8();

        TestPictures.AssertLevels(PictureReader.Read(folder.Write("a.jpg", TestPictures.Encode(mat, ".png"))), (x, y) => TestPictures.Level(x, y));
    }

    [Theory]
    [InlineData(".png")]
    [InlineData(".jpg")]
    [InlineData(".bmp")]
    [InlineData(".tiff")]
    public void Read_TruncatedAnywhere_IsRefusedAndNeverFilled(string ending)
    {
        using Mat mat = TestPictures.Gray8(64, 48);
        byte[] whole = TestPictures.Encode(mat, ending);
        // OpenCV writes a TIFF's directory last; BMP's padding makes the last bytes of no matter for none of them.
        foreach (double share in new[] { 0.05, 0.3, 0.6, 0.9, 0.99 })
        {
            byte[] cut = whole[..(int)(whole.Length * share)];
            InputDataException error = Assert.Throws<InputDataException>(() => PictureReader.Read(folder.Write("cut" + ending, cut)));
            Assert.Contains("truncated", error.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Read_JpegWithPreviewCutInside_IsNotFooledByThePreviewsEnd()
    {
        using Mat mat = TestPictures.Gray8(64, 48);
        using Mat small = TestPictures.Gray8(8, 8);
        byte[] whole = TestPictures.Encode(mat, ".jpg");
        byte[] preview = TestPictures.Encode(small, ".jpg");
        int length = preview.Length + 2;
        byte[] withPreview = [.. whole[..2], 0xFF, 0xE2, (byte)(length >> 8), (byte)length, .. preview, .. whole[2..]];

        Assert.Equal(64, PictureReader.Read(folder.Write("whole.jpg", withPreview)).Width);
        Refused(folder.Write("cut.jpg", withPreview[..^200]), "is truncated");
    }

    [Fact]
    public void Read_PngWithFlippedBit_FailsItsChecksum()
    {
        using Mat mat = TestPictures.Gray8(64, 48);
        byte[] file = TestPictures.Encode(mat, ".png");
        file[file.Length / 2] ^= 0x10;

        Refused(folder.Write("flipped.png", file), "checksum");
    }

    // Deflate has a checksum, so any damage to its data shows; LZW and PackBits show those that change the length.
    [Theory]
    [InlineData(8, 40)]
    [InlineData(5, 4)]
    public void Read_TiffWithDamagedStrips_IsNoticed(int compression, int atLeast)
    {
        using Mat mat = TestPictures.Gray8(200, 100);
        byte[] whole = TestPictures.Encode(mat, ".tiff", (int)ImwriteFlags.TiffCompression, compression);
        Assert.Equal(200, PictureReader.Read(folder.Write("whole.tif", whole)).Width);
        int noticed = 0;
        for (int i = 0; i < 40; i++)
        {
            byte[] damaged = (byte[])whole.Clone();
            // OpenCV writes the directory, about 250 bytes, behind the strips.
            damaged[20 + (i * (whole.Length - 500) / 40)] ^= 0x10;
            if (Record.Exception(() => PictureReader.Read(folder.Write("damaged.tif", damaged))) is InputDataException error)
            {
                Assert.Contains("does not unpack", error.Message, StringComparison.Ordinal);
                noticed++;
            }
        }

        Assert.InRange(noticed, atLeast, 40);
    }

    [Fact]
    public void Read_PngWithTooFewRows_IsNotFilled() =>
        Refused(folder.Write("short.png", HandMadePng.File(40, 30, 8, 0, new byte[41 * 20])), "cannot be decoded (PNG, 8 bit, grey)");

    [Theory]
    [InlineData(65535, 65535, "more than the 65535 px a side and 268 megapixels")]
    [InlineData(70000, 10, "more than the 65535 px a side")]
    [InlineData(4294967295, 1, "more than the 65535 px a side")]
    [InlineData(0, 10, "claims to be 0 x 10 px")]
    public void Read_PngClaimingAbsurdSize_IsRefusedBeforeMemoryIsTaken(long width, long height, string reason)
    {
        string path = folder.Write("huge.png", HandMadePng.File((uint)width, (uint)height, 8, 0, [0, 1, 2]));

        Assert.True(AllocatedBy(() => Refused(path, reason)) < 1 << 20);
    }

    [Fact]
    public void Read_PngWithTooLittleData_IsRefusedBeforeMemoryIsTaken()
    {
        string path = folder.Write("thin.png", HandMadePng.File(16000, 16000, 8, 0, [0, 1, 2]));

        Assert.True(AllocatedBy(() => Refused(path, "cannot hold 16000 x 16000 px")) < 1 << 20);
    }

    [Fact]
    public void Read_TiffClaimingAbsurdSize_IsRefusedBeforeMemoryIsTaken()
    {
        string path = folder.Write("huge.tif", HandMadeTiff.File(2_000_000_000, 2_000_000_000, 8, 1, 1, new byte[100]));

        Assert.True(AllocatedBy(() => Refused(path, "more than the 65535 px a side")) < 1 << 20);
    }

    [Fact]
    public void Read_BmpClaimingAbsurdSize_IsRefused()
    {
        using Mat mat = TestPictures.Gray8();
        byte[] file = TestPictures.Encode(mat, ".bmp");
        BitConverter.TryWriteBytes(file.AsSpan(18), 60000);
        BitConverter.TryWriteBytes(file.AsSpan(22), -60000);

        Refused(folder.Write("huge.bmp", file), "megapixels");
    }

    [Theory]
    [InlineData(12, 1, 1, "1 samples of 12 bits")]
    [InlineData(32, 1, 1, "1 samples of 32 bits, sample format 1")]
    [InlineData(16, 3, 1, "sample format 3")]
    [InlineData(8, 1, 5, "5 samples")]
    public void Read_TiffOfUnreadKind_SaysWhichAreRead(ushort bits, ushort format, ushort samples, string reason) =>
        Refused(folder.Write("odd.tif", HandMadeTiff.File(4, 2, bits, format, samples, new byte[1000])), reason);

    [Fact]
    public void Read_TiffOfSeveralPages_IsRefused()
    {
        using Mat first = TestPictures.Gray8();
        using Mat second = TestPictures.Gray8();
        string path = folder.PathOf("stack.tif");
        Cv2.ImWrite(path, [first, second]);

        Refused(path, "holds several pages");
    }

    [Fact]
    public void Read_TiffStoredTurned_IsRefused() =>
        Refused(folder.Write("turned.tif", HandMadeTiff.File(4, 2, 8, 1, 1, new byte[8], orientation: 6)), "orientation 6");

    [Fact]
    public void Read_HandMadeTiff_IsRead() =>
        Assert.Equal([1f, 2f, 3f, 4f, 5f, 6f], PictureReader.Read(folder.Write("ok.tif", HandMadeTiff.File(3, 2, 8, 1, 1, [1, 2, 3, 4, 5, 6]))).Pixels.ToArray());

    [Theory]
    [InlineData(".png")]
    [InlineData(".jpg")]
    [InlineData(".bmp")]
    [InlineData(".tiff")]
    public void Read_MutatedBytes_GivesAPictureOrASentenceAndTakesLittleMemory(string ending)
    {
        using Mat mat = TestPictures.Gray8();
        byte[] whole = TestPictures.Encode(mat, ending);
        string path = folder.PathOf("mutated" + ending);

        // Headers stand in the first bytes, TIFF's in the last; one in five files is cut as well.
        Gen<int> place = Gen.OneOf(Gen.Int[0, Math.Min(60, whole.Length - 1)], Gen.Int[0, whole.Length - 1], Gen.Int[Math.Max(0, whole.Length - 250), whole.Length - 1]);
        Gen.Select(Gen.Select(place, Gen.Byte).Array[1, 4], Gen.Int[0, 4], Gen.Double[0, 1]).Sample(
            (changes, cut, share) =>
            {
                byte[] file = (byte[])whole.Clone();
                foreach ((int at, byte value) in changes)
                    file[at] = value;
                if (cut == 0)
                    file = file[..(int)(file.Length * share)];
                File.WriteAllBytes(path, file);
                long allocated = AllocatedBy(() =>
                {
                    try
                    {
                        PictureReader.Read(path);
                    }
                    catch (InputDataException error)
                    {
                        Assert.DoesNotContain("Exception", error.Message, StringComparison.Ordinal);
                    }
                });
                return allocated < 1 << 25;
            },
            iter: 400,
            threads: 1);
    }

    private static void Refused(string path, string reason)
    {
        InputDataException error = Assert.Throws<InputDataException>(() => PictureReader.Read(path));
        Assert.StartsWith(path, error.Message, StringComparison.Ordinal);
        Assert.Contains(reason, error.Message, StringComparison.Ordinal);
    }

    private static long AllocatedBy(Action action)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        action();
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
