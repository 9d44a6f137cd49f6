using BosFlow.Footage;
using BosFlow.Tests.Displacement;

namespace BosFlow.Tests.Footage;

public sealed class PixelDefectsTests
{
    [Fact]
    public void Find_HealthyPicture_HasNone() => Assert.Null(PixelDefects.Find(new WaveTexture(1).Picture(64, 48)));

    [Fact]
    public void Find_SaturatedDots_StayInUse()
    {
        float[] pixels = new float[64 * 48];
        for (int y = 2; y < 48; y += 6)
        {
            for (int x = 2; x < 63; x += 6)
                pixels[(y * 64) + x] = pixels[(y * 64) + x + 1] = 255;
        }

        Assert.Null(PixelDefects.Find(new GrayImage(64, 48, pixels, 255)));
    }

    [Fact]
    public void Find_Glare_IsMarkedWithItsSurroundings()
    {
        float[] pixels = new float[64 * 48];
        for (int y = 10; y < 40; y++)
            pixels.AsSpan((y * 64) + 20, 30).Fill(255);

        byte[]? codes = PixelDefects.Find(new GrayImage(64, 48, pixels, 255));

        Assert.NotNull(codes);
        Assert.Equal(PixelDefects.Glare, codes[(25 * 64) + 35]);
        Assert.Equal(0, codes[(25 * 64) + 8]);
        Assert.Equal(PixelDefects.Glare, codes[(25 * 64) + 20]);
    }

    [Fact]
    public void Find_NotRecordedPixel_ReachesAsFarAsTheInterpolation()
    {
        float[] pixels = new float[64 * 48];
        pixels[(20 * 64) + 30] = float.NaN;

        byte[]? codes = PixelDefects.Find(new GrayImage(64, 48, pixels, float.NaN));

        Assert.NotNull(codes);
        Assert.Equal(81, codes.Count(code => code == PixelDefects.NotRecorded));
    }
}
