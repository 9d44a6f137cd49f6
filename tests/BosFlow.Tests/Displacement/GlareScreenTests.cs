using BosFlow.Displacement;
using BosFlow.Footage;

namespace BosFlow.Tests.Displacement;

public sealed class GlareScreenTests
{
    [Theory]
    [InlineData(100, 60, 50, 30)]
    [InlineData(100, 60, 0, 0)]
    [InlineData(100, 60, 93, 53)]
    [InlineData(67, 40, 30, 0)]
    [InlineData(67, 40, 58, 20)]
    public void MayHaveGlare_SaturatedSquare_IsSeenWhereverTheExactSearchFindsGlare(int width, int height, int left, int top)
    {
        float[] pixels = new float[width * height];
        for (int y = top; y < Math.Min(top + 9, height); y++)
            pixels.AsSpan((y * width) + left, Math.Min(9, width - left)).Fill(255);
        var picture = new GrayImage(width, height, pixels, 255);

        Assert.NotNull(PixelDefects.Find(picture));
        Assert.True(GlareScreen.MayHaveGlare([.. Enumerable.Range(0, height).Select(y => FrameScan.Of(picture.Row(y), 255))]));
    }

    [Fact]
    public void MayHaveGlare_SaturatedDots_AreNone()
    {
        float[] pixels = [.. Enumerable.Range(0, 200 * 100).Select(i => i % 200 % 7 < 3 && i / 200 % 6 < 3 ? 255f : 20)];
        var picture = new GrayImage(200, 100, pixels, 255);

        Assert.False(GlareScreen.MayHaveGlare([.. Enumerable.Range(0, 100).Select(y => FrameScan.Of(picture.Row(y), 255))]));
    }
}
