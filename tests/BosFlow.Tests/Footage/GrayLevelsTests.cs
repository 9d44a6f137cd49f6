using BosFlow.Footage;

namespace BosFlow.Tests.Footage;

public sealed class GrayLevelsTests
{
    [Fact]
    public void Match_SameWhiteLevel_GivesTheFrameItself()
    {
        GrayImage frame = Image(255, 7);

        (GrayImage image, string? warning) = GrayLevels.Match(frame, Image(255, 1));

        Assert.Same(frame, image);
        Assert.Null(warning);
    }

    [Fact]
    public void Match_SixteenBitsAgainstEight_ScalesByWhiteLevelsAndSaysSo()
    {
        (GrayImage image, string? warning) = GrayLevels.Match(Image(65535, 0, 257, 65535, float.NaN), Image(255, 0, 0, 0, 0));

        Assert.Equal(255f, image.WhiteLevel);
        // 65535 = 255 * 257, so the factor is exactly 1/257.
        Assert.Equal([0f, 1f, 255f, float.NaN], image.Pixels.ToArray());
        Assert.Equal("The frame's white level is 65535 and the reference's 255: the frame was scaled by 0.00389.", warning);
    }

    [Fact]
    public void Match_TwoFloatPictures_AreLeftAlone() => Assert.Null(GrayLevels.Match(Image(float.NaN, 0.5f), Image(float.NaN, 0.1f)).Warning);

    [Theory]
    [InlineData(float.NaN, 255, "The frame has floating-point grey levels and the reference whole numbers up to 255")]
    [InlineData(65535, float.NaN, "The reference has floating-point grey levels and the frame whole numbers up to 65535")]
    public void Match_FloatAgainstWholeNumbers_IsRefused(float frame, float reference, string start)
    {
        InputDataException error = Assert.Throws<InputDataException>(() => GrayLevels.Match(Image(frame, 1), Image(reference, 1)));

        Assert.StartsWith(start, error.Message, StringComparison.Ordinal);
    }

    private static GrayImage Image(float white, params float[] pixels) => new(pixels.Length, 1, pixels, white);
}
