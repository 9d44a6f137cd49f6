using BosFlow.Footage;

namespace BosFlow.Tests.Footage;

public sealed class FrameQualityTests
{
    private const int Width = 96;
    private const int Height = 64;

    [Fact]
    public void Assess_Dots_IsUsableWithoutWarnings()
    {
        FrameQuality quality = Assess((x, y) => Dots(x, y, 40, 120), 255);

        Assert.Null(quality.Failure);
        Assert.Empty(quality.Warnings);
        Assert.Equal(0, quality.SaturatedFraction);
        Assert.Equal(0, quality.InvalidFraction);
    }

    [Fact]
    public void Assess_KnownLevels_GivesMeanAndStandardDeviation()
    {
        // Levels 100 and 140, half each: mean 120, deviation 20.
        FrameQuality quality = Assess((x, _) => x % 4 < 2 ? 100 : 140, 255);

        Assert.Equal(120, quality.MeanLevel, 9);
        Assert.Equal(20, quality.Contrast, 9);
    }

    [Theory]
    [InlineData(0, 255)]
    [InlineData(16, 235)]
    [InlineData(1200, 65535)]
    public void Assess_BlackWithNoise_FailsAsBlack(float level, float white)
    {
        var random = new Random(11);
        FrameQuality quality = Assess((_, _) => level + (white * 0.004f * (float)random.NextDouble()), white);

        Assert.StartsWith("The frame is black: mean level", quality.Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Assess_GreyWithNoiseAndUnevenLight_FailsAsWithoutTexture()
    {
        var random = new Random(12);
        FrameQuality quality = Assess((x, _) => 100 + (0.1f * x) + (4 * (float)random.NextDouble()), 255);

        Assert.StartsWith("The frame is without texture", quality.Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Assess_StrongPixelPattern_IsNotTakenForNoise()
    {
        var random = new Random(13);
        Assert.Null(Assess((_, _) => random.Next(256), 255).Failure);
    }

    [Fact]
    public void Assess_AllSaturated_FailsAsSaturated()
    {
        FrameQuality quality = Assess((_, _) => 255, 255);

        Assert.Equal("The frame is saturated: 100.0 % of its pixels are at the white level (255).", quality.Failure);
        Assert.Equal(1, quality.SaturatedFraction);
    }

    [Fact]
    public void Assess_HalfSaturated_IsMeasuredWithAWarning()
    {
        FrameQuality quality = Assess((x, y) => x < Width / 2 ? 255 : Dots(x, y, 40, 120), 255);

        Assert.Null(quality.Failure);
        Assert.Equal(0.5, quality.SaturatedFraction, 9);
        Assert.Equal("50.0 % of the pixels are saturated and dots are lost there; expose less.", Assert.Single(quality.Warnings));
    }

    [Fact]
    public void Assess_FloatPicture_HasUnknownSaturation()
    {
        FrameQuality quality = Assess((x, y) => Dots(x, y, 0.2f, 0.6f), float.NaN);

        Assert.Null(quality.Failure);
        Assert.True(double.IsNaN(quality.SaturatedFraction));
    }

    [Fact]
    public void Assess_SomeNaN_CountsThemAndMeasuresTheRest()
    {
        FrameQuality quality = Assess((x, y) => y < Height / 4 ? float.NaN : Dots(x, y, 40, 120), float.NaN);

        Assert.Null(quality.Failure);
        Assert.Equal(0.25, quality.InvalidFraction, 9);
        Assert.Equal("25.00 % of the pixels are invalid (NaN) and masked; look where they come from if they lie in the flow.", Assert.Single(quality.Warnings));
    }

    [Fact]
    public void Assess_OnlyNaN_Fails() =>
        Assert.Equal("The frame has no valid pixel in the measured region.", Assess((_, _) => float.NaN, float.NaN).Failure);

    [Fact]
    public void Assess_DotsOutsideTheMask_DoNotCount()
    {
        byte[] mask = new byte[Width * Height];
        for (int y = 0; y < Height; y++)
            mask.AsSpan(y * Width, Width / 2).Fill(1);
        GrayImage image = Image((x, y) => x < Width / 2 ? 90 : Dots(x, y, 40, 120), 255);

        FrameQuality quality = FrameQuality.Assess(image, new PixelMask(Width, Height, mask));

        Assert.Equal(90, quality.MeanLevel, 9);
        Assert.StartsWith("The frame is without texture", quality.Failure, StringComparison.Ordinal);
    }

    [Fact]
    public void Assess_FaintDots_AreMeasuredWithAWarning()
    {
        FrameQuality quality = Assess((x, y) => Dots(x, y, 100, 6), 255);

        Assert.Null(quality.Failure);
        Assert.StartsWith("The texture is weak", Assert.Single(quality.Warnings), StringComparison.Ordinal);
    }

    // Round dots 8 px apart, about 3 px wide.
    private static float Dots(int x, int y, float dark, float rise)
    {
        float dx = (x % 8) - 3.3f;
        float dy = (y % 8) - 3.7f;
        return dark + (rise * MathF.Exp(-((dx * dx) + (dy * dy)) / 1.5f));
    }

    private static GrayImage Image(Func<int, int, float> level, float white)
    {
        float[] pixels = new float[Width * Height];
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
                pixels[(y * Width) + x] = level(x, y);
        return new GrayImage(Width, Height, pixels, white);
    }

    private static FrameQuality Assess(Func<int, int, float> level, float white) =>
        FrameQuality.Assess(Image(level, white), PixelMask.All(Width, Height));
}
