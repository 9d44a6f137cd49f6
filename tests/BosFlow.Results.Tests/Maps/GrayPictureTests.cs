using BosFlow.Footage;
using BosFlow.Results.Maps;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Maps;

/// <summary>Grey pictures read back by OpenCV in a process of its own.</summary>
public sealed class GrayPictureTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(8, "0 1 254 255 17 128 uint8")]
    [InlineData(16, "0 1 254 65535 17 30000 uint16")]
    public void WritePng_Levels_AreReadBackExactly(int bits, string expected)
    {
        float[] levels = bits == 8 ? [0, 1, 254, 255, 17, 128] : [0, 1, 254, 65535, 17, 30000];

        GrayPicture.WritePng(folder.PathOf("a.png"), new GrayImage(3, 2, levels, (1 << bits) - 1), bits);

        Assert.Equal($"(2, 3) {expected}", ReadBack("a.png"));
    }

    [Fact]
    public void WriteFloatTiff_AnyLevel_IsReadBackExactly()
    {
        GrayPicture.WriteFloatTiff(folder.PathOf("a.tif"), new GrayImage(3, 2, [0.1f, -3, float.NaN, 1e20f, 0, 7], float.NaN));

        Assert.Equal("(2, 3) 0.1 -3.0 nan 1e+20 0.0 7.0 float32", ReadBack("a.tif"));
    }

    [Theory]
    [InlineData(255.6f)]
    [InlineData(-0.7f)]
    [InlineData(float.NaN)]
    public void WritePng_LevelThatDoesNotFit_IsRefusedAndLeavesNothing(float level)
    {
        ArgumentException e = Assert.Throws<ArgumentException>(() => GrayPicture.WritePng(folder.PathOf("a.png"), new GrayImage(2, 1, [5, level], 255), 8));

        Assert.Contains("(1, 0)", e.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(folder.Root));
    }

    private string ReadBack(string name) => ChildProcess.Python(
        "import sys,numpy as n,cv2;a=cv2.imdecode(n.fromfile(sys.argv[1],n.uint8),cv2.IMREAD_UNCHANGED);print(a.shape,*a.ravel(),a.dtype)", folder.PathOf(name)).Trim();
}
