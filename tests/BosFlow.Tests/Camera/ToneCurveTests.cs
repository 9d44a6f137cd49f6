using BosFlow.Camera;

namespace BosFlow.Tests.Camera;

public sealed class ToneCurveTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    // IEC 61966-2-1: level 0.5 is 21.404 % of the light, and the straight part ends at 0.04045 (from memory).
    [InlineData(0.5, 0.21404)]
    [InlineData(0.04045, 0.0031308)]
    public void ToLight_KnownLevels_GivesTheStandardsLight(double level, double light)
    {
        Assert.Equal(light, ToneCurve.ToLight(level, PictureTones.Srgb), 5);
        Assert.Equal(level, ToneCurve.ToLevel(light, PictureTones.Srgb), 4);
    }

    [Fact]
    public void ToLight_Linear_ChangesNothing()
    {
        Assert.Equal(0.3, ToneCurve.ToLight(0.3, PictureTones.Linear));
        Assert.Equal(0.3, ToneCurve.ToLevel(0.3, PictureTones.Linear));
    }
}
