using BosFlow.Footage;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class SensorTests
{
    [Fact]
    public void Expose_EightBit_RoundsAndClips()
    {
        GrayImage image = Expose([-0.1f, 0.1f, 0.5f, 2f], new SensorSettings { Bits = 8 });
        Assert.Equal([0f, 26f, 128f, 255f], image.Pixels.ToArray());
        Assert.Equal(255f, image.WhiteLevel);
    }

    [Fact]
    public void Expose_SixteenBit_HasItsOwnFullScale() =>
        Assert.Equal([0f, 6554f, 32768f, 65535f], Expose([-0.1f, 0.1f, 0.5f, 2f], new SensorSettings { Bits = 16 }).Pixels.ToArray());

    [Fact]
    public void Expose_Unrounded_NeitherRoundsNorClips()
    {
        GrayImage image = Expose([-0.1f, 0.1f, 0.5f, 2f], new SensorSettings { Bits = 0 });
        Assert.Equal(510f, image[3, 0]);
        Assert.Equal(-25.5f, image[0, 0], 1e-4f);
        Assert.True(float.IsNaN(image.WhiteLevel));
    }

    [Fact]
    public void Expose_GaussianNoise_HasTheStatedDeviation()
    {
        double deviation = Deviation(new SensorSettings { Bits = 0, NoisePercent = 2 }, 0.5f, frame: 3);
        Assert.Equal(0.02 * 255, deviation, 0.1);
    }

    [Fact]
    public void Expose_ShotNoise_FollowsThePhotonTransferLaw()
    {
        // Variance in electrons equals the mean in electrons (Poisson): sigma = sqrt(level / full well) of full scale.
        double deviation = Deviation(new SensorSettings { Bits = 0, FullWellElectrons = 10_000 }, 0.25f, frame: 0);
        Assert.Equal(255 * Math.Sqrt(0.25 / 10_000), deviation, 0.03);
    }

    [Fact]
    public void Expose_SameSeedAndFrame_RepeatsAndOtherFrameDiffers()
    {
        var settings = new SensorSettings { NoisePercent = 5 };
        Assert.Equal(Flat(settings, 1).Pixels.ToArray(), Flat(settings, 1).Pixels.ToArray());
        Assert.NotEqual(Flat(settings, 1).Pixels.ToArray(), Flat(settings, 2).Pixels.ToArray());
    }

    private static GrayImage Expose(float[] levels, SensorSettings settings) => Sensor.Expose(levels, 4, 1, settings, 1, 0, CancellationToken.None);

    private static GrayImage Flat(SensorSettings settings, int frame, float level = 0.5f)
    {
        float[] levels = new float[128 * 128];
        Array.Fill(levels, level);
        return Sensor.Expose(levels, 128, 128, settings, 9, frame, CancellationToken.None);
    }

    private static double Deviation(SensorSettings settings, float level, int frame)
    {
        float[] pixels = Flat(settings, frame, level).Pixels.ToArray();
        double mean = pixels.Average(value => (double)value);
        Assert.Equal(level * 255, mean, 0.25);
        return Math.Sqrt(pixels.Average(value => (value - mean) * (value - mean)));
    }
}
