using BosFlow.Footage;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

/// <summary>Uneven light on a bare board, against the formulas worked by hand.</summary>
public sealed class FrameLightTests
{
    // No dots: every pixel is 0.4 of full scale, unrounded, 102 of 255.
    private const double Level = 0.4 * 255;

    private static readonly SceneRecipe Bare = new()
    {
        Width = 65,
        Height = 49,
        FrameCount = 40,
        FrameRateHz = 50,
        Flow = new FlowRecipe.Shift(0, 0),
        Printed = [],
        Sensor = new SensorSettings { Bits = 0, Background = 0.4 },
        Seed = 5,
    };

    [Fact]
    public void Render_Vignetting_IsTheFourthPowerOfTheCosine()
    {
        GrayImage image = Render(new LightSettings { VignettingPercent = 36 }, 0);
        Assert.Equal(Level, image[32, 24], 1e-4);
        Assert.Equal(0.64 * Level, image[0, 0], 1e-4);
        Assert.Equal(0.64 * Level, image[64, 48], 1e-4);
        // Halfway: tan^2 is a quarter of that in the corner, where 1 / (1 + tan^2)^2 = 0.64.
        Assert.Equal(Level * Math.Pow(1 / (1 + (0.25 / 4)), 2), image[16, 12], 1e-4);
    }

    [Fact]
    public void Render_FlickerAndReadout_MakesBandsOfTheLampsFrequency()
    {
        // 49 rows in 10 ms under 100 Hz are one band; an exposure of half a period leaves 2 / pi of its swing.
        SceneRecipe recipe = Bare with { Shutter = new ShutterSettings { ReadoutSeconds = 0.01, ExposureSeconds = 0.005 } };
        GrayImage image = new SyntheticScene(recipe with { Light = new LightSettings { FlickerPercent = 20, FlickerHertz = 100 } }, CancellationToken.None).Render(3, CancellationToken.None);
        double mean = 0, cosine = 0, sine = 0;
        for (int row = 0; row < 49; row++)
        {
            mean += image[10, row] / 49.0;
            cosine += image[10, row] * Math.Cos(2 * Math.PI * row / 49) * 2 / 49;
            sine += image[10, row] * Math.Sin(2 * Math.PI * row / 49) * 2 / 49;
        }

        Assert.Equal(Level, mean, 1e-4);
        Assert.Equal(0.2 * 2 / Math.PI * Level, double.Hypot(cosine, sine), 1e-4);
    }

    [Fact]
    public void Render_UnsteadyExposure_ScattersByItsAmount()
    {
        double[] gains = [.. Enumerable.Range(0, 400).Select(frame => Gain(new LightSettings { UnsteadyPercent = 4 }, frame))];
        double mean = gains.Average();
        // 400 normal draws: the standard deviation is known to 3.5 %, taken four times.
        Assert.Equal(1, mean, 4 * 0.04 / 20);
        Assert.Equal(0.04, Math.Sqrt(gains.Average(gain => (gain - mean) * (gain - mean))), 4 * 0.035 * 0.04);
    }

    [Fact]
    public void Render_HuntingExposure_GoesInSteps()
    {
        double[] gains = [.. Enumerable.Range(0, 40).Select(frame => Gain(new LightSettings { HuntingPercent = 30, HuntingFrames = 10 }, frame))];
        Assert.Equal(4, gains.Distinct().Count());
        Assert.Equal(gains[10], gains[19]);
        Assert.NotEqual(gains[9], gains[10]);
        Assert.All(gains, gain => Assert.InRange(gain, 0.7, 1.3));
    }

    [Fact]
    public void Render_SlantThatTurns_IsBrighterOnItsSide()
    {
        var light = new LightSettings { SlantPercent = 20, SlantDegrees = 90, SlantDegreesPerSecond = -45 };
        GrayImage first = Render(light, 0);
        Assert.Equal(Level * (1 + (0.2 * 24 / 40)), first[32, 0], 1e-4);
        Assert.Equal(Level * (1 - (0.2 * 24 / 40)), first[5, 48], 1e-4);
        // Two seconds later it has turned from up to the right; half the diagonal is 40 px.
        GrayImage later = new SyntheticScene(Bare with { FrameCount = 101, Light = light }, CancellationToken.None).Render(100, CancellationToken.None);
        Assert.Equal(Level * 1.16, later[64, 24], 1e-4);
    }

    [Fact]
    public void Render_ShadowThatRuns_HasItsEdgeAndDepth()
    {
        // Towards the right, 3 px from the middle at first, 100 px/s: after 4 frames of 20 ms at 3 + 8 px.
        var light = new LightSettings { Shadow = new ShadowSettings(60, 3, 0, 100, 8) };
        GrayImage image = Render(light, 4);
        Assert.Equal(Level, image[20, 10], 1e-4);
        Assert.Equal(Level * 0.4, image[60, 10], 1e-4);
        Assert.Equal(Level * 0.7, image[43, 10], 1e-4);
        // One standard deviation, 2 px, further: 84.13 % of the depth.
        Assert.Equal(Level * (1 - (0.6 * 0.841345)), image[45, 10], 1e-3);
    }

    [Fact]
    public void Render_ShadowUnderAMovedCamera_LiesOnTheBoard()
    {
        var vibration = new VibrationSettings { Lines = [new VibrationLine(7, 5)] };
        var scene = new SyntheticScene(Bare with { Vibration = vibration, Light = new LightSettings { Shadow = new ShadowSettings(60, 0, 0, 0, 8) } }, CancellationToken.None);
        GrayImage image = scene.Render(3, CancellationToken.None);
        double shift = scene.PoseAt(3, 24).ShiftX;
        Assert.True(Math.Abs(shift) > 1);
        int column = 32 + (int)Math.Floor(shift);
        // The edge of half depth lies between these columns.
        Assert.InRange(Level * 0.7, image[column + 1, 20], image[column, 20]);
    }

    [Fact]
    public void Render_Glare_AddsAGaussianAndSaturates()
    {
        var light = new LightSettings { Glare = new GlareSettings(40, 20, 6, 1.5) };
        GrayImage image = Render(light, 0);
        Assert.Equal(Level + (1.5 * 255), image[40, 20], 1e-3);
        Assert.Equal(Level + (1.5 * 255 / Math.E), image[46, 20], 1e-3);
        GrayImage recorded = new SyntheticScene(Bare with { Light = light, Sensor = new SensorSettings { Background = 0.4 } }, CancellationToken.None).Render(0, CancellationToken.None);
        Assert.Equal(255, recorded[40, 20]);
        Assert.Equal(102, recorded[0, 48]);
    }

    [Theory]
    [InlineData(10, 1)]
    [InlineData(12, 1)]
    [InlineData(10, 2.2)]
    [InlineData(8, 2.2)]
    public void Expose_BitsAndGamma_GivesTheCodesOfThatCurve(int bits, double gamma)
    {
        float[] light = [.. Enumerable.Range(0, 200).Select(i => i / 150f)];
        var settings = new SensorSettings { Bits = bits, Gamma = gamma };
        GrayImage image = Sensor.Expose([.. light], 200, 1, settings, 1, 0, CancellationToken.None);
        double largest = Math.Pow(2, bits) - 1;
        for (int i = 0; i < light.Length; i++)
        {
            double code = Math.Min(largest, Math.Round(Math.Pow(light[i], 1 / gamma) * largest, MidpointRounding.AwayFromZero));
            Assert.Equal(code * settings.FullScale / largest, image[i, 0], 0.5);
        }

        Assert.True(image.Pixels.ToArray().Distinct().Count() > 100);
    }

    [Fact]
    public void Problems_BadLight_IsNamed()
    {
        var light = new LightSettings { VignettingPercent = 99, FlickerHertz = 0, HuntingFrames = 0, Shadow = new ShadowSettings(120, 0, 0, 0, 1), Glare = new GlareSettings(0, 0, 0, 1) };
        Assert.Equal(5, light.Problems().Count);
    }

    private static GrayImage Render(LightSettings light, int frame) => new SyntheticScene(Bare with { Light = light }, CancellationToken.None).Render(frame, CancellationToken.None);

    private static double Gain(LightSettings light, int frame) =>
        new SyntheticScene(Bare with { Width = 32, Height = 32, FrameCount = 400, Light = light }, CancellationToken.None).Render(frame, CancellationToken.None)[3, 3] / Level;
}
