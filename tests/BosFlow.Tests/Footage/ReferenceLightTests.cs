using BosFlow.Footage;

namespace BosFlow.Tests.Footage;

public sealed class ReferenceLightTests
{
    private const int Width = 80;
    private const int Height = 60;

    [Fact]
    public void Compare_FrameDimmedAsAWhole_HasItsGainAndEvenParts()
    {
        LightComparison light = Compare(Picture((x, y) => 0.8f * Level(x, y)), Picture(Level), All(_ => true), 0, 0);

        Assert.Equal(0.8, light.Gain, 1e-6);
        Assert.Equal(1, light.LowestShare, 1e-6);
        Assert.Equal(1, light.HighestShare, 1e-6);
    }

    [Fact]
    public void Compare_ShadowOverAPart_IsTheLowestPart()
    {
        // The second part of the first row of parts; the reference has one level, so that the whole loses 0.6 of a 48th.
        LightComparison light = Compare(Picture((x, y) => x is >= 10 and < 20 && y < 10 ? 40 : 100), Picture((_, _) => 100), All(_ => true), 0, 0);

        double gain = 1 - (0.6 / 48);
        Assert.Equal(gain, light.Gain, 1e-6);
        Assert.Equal(0.4 / gain, light.LowestShare, 1e-6);
        Assert.Equal(1 / gain, light.HighestShare, 1e-6);
    }

    [Theory]
    [InlineData(3, -2)]
    [InlineData(-5, 4)]
    public void Compare_ShiftedFrame_ComparesTheSameDots(int right, int down)
    {
        GrayImage frame = Picture((x, y) => 0.7f * Level(x - right + 70, y - down + 50));

        LightComparison light = Compare(frame, Picture((x, y) => Level(x + 70, y + 50)), All(_ => true), right, down);

        Assert.Equal(0.7, light.Gain, 1e-6);
        Assert.Equal(1, light.LowestShare, 1e-6);
        Assert.Equal(1, light.HighestShare, 1e-6);
    }

    [Fact]
    public void Compare_PixelsThatAreMaskedOrNotKnown_TakeNoPart()
    {
        GrayImage frame = Picture((x, y) => x < 10 ? 5 : y == 30 ? float.NaN : 50);

        LightComparison light = Compare(frame, Picture((_, _) => 100), All(x => x >= 10), 0, 0);

        Assert.Equal(0.5, light.Gain, 1e-6);
        Assert.Equal(1, light.LowestShare, 1e-6);
    }

    [Fact]
    public void Compare_NothingMeasurable_IsUnknown() =>
        Assert.Equal(LightComparison.Unknown, Compare(Picture(Level), Picture(Level), All(_ => false), 0, 0));

    private static LightComparison Compare(GrayImage frame, GrayImage reference, PixelMask measurable, int shiftX, int shiftY) =>
        new ReferenceLight(reference, measurable).Compare(frame, shiftX, shiftY);

    private static float Level(int x, int y) => 50 + (x % 7) + (3 * (y % 5));

    private static GrayImage Picture(Func<int, int, float> level)
    {
        float[] levels = new float[Width * Height];
        for (int i = 0; i < levels.Length; i++)
            levels[i] = level(i % Width, i / Width);
        return new GrayImage(Width, Height, levels, 255);
    }

    private static PixelMask All(Func<int, bool> counts)
    {
        byte[] values = new byte[Width * Height];
        for (int i = 0; i < values.Length; i++)
            values[i] = counts(i % Width) ? (byte)1 : (byte)0;
        return new PixelMask(Width, Height, values);
    }
}
