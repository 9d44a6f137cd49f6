using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Displacement;

/// <summary>What a reference's own spectra tell: shape of the dots, noise, bias of interpolation, weights of the waves.</summary>
public sealed class ReferenceSamplingTests
{
    private const int Side = 384;

    [Theory]
    [InlineData(2.5, 2)]
    [InlineData(3, 2)]
    [InlineData(4, 5)]
    public void Of_GaussianDots_FindsTheirSizeAndTheNoise(double dot, double noisePercent)
    {
        ReferenceSampling sampling = Sampling(Gaussian(dot), noisePercent);

        double variance = Math.Pow(0.01 * noisePercent * 255, 2) + (1.0 / 12);
        Assert.InRange(sampling.DotPixels.X / dot, 0.93, 1.07);
        Assert.InRange(sampling.DotPixels.Y / dot, 0.93, 1.07);
        Assert.InRange(sampling.Noise / variance, 0.85, 1.15);
    }

    [Theory]
    [InlineData(2.5, InterpolationOrder.Quintic)]
    [InlineData(3, InterpolationOrder.Quintic)]
    [InlineData(3, InterpolationOrder.Cubic)]
    [InlineData(4, InterpolationOrder.Cubic)]
    public void Bias_OfGaussianDots_IsThatOfTheirExactSpectrum(double dot, InterpolationOrder order)
    {
        // The other way: the integral over both axes for dots whose shape is known.
        double exact = PatternSpectrum.Of(0.2, dot, 0.02, order).BiasAmplitude;

        // Nothing is left out of the derivatives where the bias is measured.
        (double x, double y) = Sampling(Gaussian(dot), 0.5, new MatchConditions { IsMeasured = true }).Bias(order);

        Assert.InRange(x / exact, 0.85, 1.15);
        Assert.InRange(y / exact, 0.85, 1.15);
    }

    [Fact]
    public void Of_NoiseAlone_SaysNothingOrNoBias()
    {
        ReferenceSampling? sampling = ReferenceSampling.Of(Picture(Gaussian(3) with { ContrastFrom = 0, ContrastTo = 0 }, 5), PixelMask.All(Side, Side), new MatchConditions());

        Assert.True(sampling is null || sampling.DotPixels.X < InterpolationBias.SmallestDotPixels || sampling.Bias(InterpolationOrder.Quintic).X < 0.001);
    }

    [Fact]
    public void Of_MaskThatLeavesNoStretch_SaysNothing()
    {
        byte[] stripes = [.. Enumerable.Range(0, Side * Side).Select(i => (i % Side % 20 == 0) || (i / Side % 20 == 0) ? (byte)0 : (byte)1)];

        Assert.Null(ReferenceSampling.Of(Picture(Gaussian(3), 1), new PixelMask(Side, Side, stripes), new MatchConditions()));
    }

    [Fact]
    public void Filter_OfANoisyPattern_HasTheWeightsOfTheFormula()
    {
        GradientFilter filter = Sampling(Gaussian(4), 5).Filter;

        // P / V without aliases, which dots of 4 px hardly have, is 1 / (2 + 0.4 n / P); with the exact power of Gaussian dots: P(w) = density * mean squared amplitude * (2 pi s^2)^2 exp(-s^2 w^2) sinc^2 along both axes, and the best factor along x least squares over all waves along y.
        double[] factors = [.. Enumerable.Repeat(1.0, Waves)];
        for (int round = 0; round < 6; round++)
            factors = Factors(factors);
        foreach (double w in (double[])[0.4, 0.8, 1.2, 1.6, 2.0])
            Assert.Equal(factors[(int)Math.Round((w * Waves / Math.PI) - 0.5)], GradientFilter.Response(filter.AlongX, w) / GradientFilter.Response(filter.AlongX, 0), 0.06);
    }

    [Theory]
    [InlineData(2, 2, 1.1)]
    [InlineData(3, 2, 1.02)]
    [InlineData(5, 5, 1.05)]
    [InlineData(2, 0.5, 1.35)] // frames have the noise that is assumed at least, not that of the reference
    public void Weights_ComeNearTheLeastScatterThereIs(double dot, double noisePercent, double most)
    {
        (double weighted, double plain, double least) = Scatter(Sampling(Gaussian(dot), noisePercent).Filter, dot, noisePercent);

        Assert.InRange(weighted, least, Math.Min(most * least, plain));
    }

    [Fact]
    public void Weights_OfAMeanOfManyFrames_KnowTheNoiseOfOne()
    {
        // The same picture as that of one frame, and as the mean of sixteen: then a frame has four times the noise, and less is gained by leaving out what moves wrongly.
        GrayImage picture = Picture(Gaussian(2), 2);
        double single = GradientFilter.Response(ReferenceSampling.Of(picture, PixelMask.All(Side, Side), new MatchConditions())!.Filter.AlongX, 2.4);
        double ofSixteen = GradientFilter.Response(ReferenceSampling.Of(picture, PixelMask.All(Side, Side), new MatchConditions { Frames = 16 })!.Filter.AlongX, 2.4);
        double measured = GradientFilter.Response(ReferenceSampling.Of(picture, PixelMask.All(Side, Side), new MatchConditions { Frames = 16, IsMeasured = true })!.Filter.AlongX, 2.4);

        Assert.InRange(single, 0, 0.9 * ofSixteen);
        Assert.InRange(ofSixteen, 0, 0.98 * measured);
        Assert.InRange(measured, 0.9, 1.02);
    }

    [Fact]
    public void Apply_WhiteNoise_HasTheReturnedGain()
    {
        GradientFilter filter = Sampling(Gaussian(3), 5).Filter;
        var sensor = new SensorSettings { NoisePercent = 10, Background = 0.5, Bits = 0 };
        float[] noise = [.. SceneRenderer.Render([], PlanarMotion.Identity, Side, Side, 0.75, sensor, 3, 0, CancellationToken.None).Pixels.ToArray().Select(level => level - 127.5f)];
        float[] x = new float[noise.Length], y = new float[noise.Length];
        BosFlow.Numerics.Interpolation.SplineGradient.Compute(noise, Side, Side, x, y);

        double gain = filter.Apply(x, y, Side, 0);

        Assert.Equal(1, gain * noise.Average(n => (double)n * n) / ((x.Average(g => (double)g * g) + y.Average(g => (double)g * g)) / 2), 0.03);
    }

    [Fact]
    public void Run_OfAPlane_IsThePlainConvolution()
    {
        const int Width = 23, Height = 19;
        var random = new SeededRandom(4);
        float[] plane = [.. Enumerable.Range(0, Width * Height).Select(_ => (float)random.NextUniform())];
        float[] alongX = [0.1f, 0.2f, 0.5f, 0.2f, 0.1f], alongY = [-0.1f, 0.3f, 0.6f, 0.3f, -0.1f];
        float[] filtered = [.. plane];

        PlaneFilter.Run(filtered, Width, alongX, alongY);

        static int Mirror(int i, int n) => i < 0 ? -i : i < n ? i : (2 * n) - 2 - i;
        for (int i = 0; i < plane.Length; i++)
        {
            double expected = 0;
            for (int dy = -2; dy <= 2; dy++)
            {
                for (int dx = -2; dx <= 2; dx++)
                    expected += alongY[dy + 2] * alongX[dx + 2] * plane[(Mirror((i / Width) + dy, Height) * Width) + Mirror((i % Width) + dx, Width)];
            }

            Assert.Equal(expected, filtered[i], 1e-5);
        }
    }

    private const int Waves = 96;

    private static double Power(double dot, double x, double y)
    {
        double sigma = dot / 4, amplitude = Enumerable.Range(0, 101).Average(i => Math.Pow(255 * (0.2 + (0.0015 * i)), 2));
        static double Pixel(double w) => w == 0 ? 1 : Math.Sin(w / 2) / (w / 2);
        return 0.63 / (dot * dot) * amplitude * Math.Pow(2 * Math.PI * sigma * sigma * Pixel(x) * Pixel(y), 2) * Math.Exp(-sigma * sigma * ((x * x) + (y * y)));
    }

    private static double[] Factors(double[] across)
    {
        double n = Math.Pow(0.05 * 255, 2);
        double[] factors = [.. Enumerable.Range(0, Waves).Select(k =>
        {
            double told = 0, scatter = 0;
            for (int j = 0; j < Waves; j++)
            {
                double power = Power(4, (k + 0.5) * Math.PI / Waves, (j + 0.5) * Math.PI / Waves);
                told += across[j] * power;
                scatter += across[j] * across[j] * ((2 * power * n) + (0.4 * n * n));
            }

            return told / scatter;
        })];
        return [.. factors.Select(factor => factor / factors[0])];
    }

    // Variance of a match with the filter, without one, and with the best weight of every wave in the plane; from the exact spectrum, aliases and all.
    private static (double Weighted, double Plain, double Least) Scatter(GradientFilter filter, double dot, double noisePercent)
    {
        double n = Math.Pow(0.01 * noisePercent * 255, 2) + (1.0 / 12), weighted = 0, told = 0, plain = 0, all = 0, least = 0;
        for (int i = 0; i < Waves; i++)
        {
            for (int j = 0; j < Waves; j++)
            {
                double x = (i + 0.5) * Math.PI / Waves, y = (j + 0.5) * Math.PI / Waves, beyondX = (2 * Math.PI) - x, beyondY = (2 * Math.PI) - y, power = Power(dot, x, y);
                double alias = Power(dot, beyondX, y) + Power(dot, x, beyondY) + Power(dot, beyondX, beyondY);
                double scatter = ((power + alias) * ((2 * alias) + (2 * n))) + (n * ((2 * alias) + n)), f = GradientFilter.Response(filter.AlongX, x) * GradientFilter.Response(filter.AlongY, y);
                weighted += f * f * x * x * scatter;
                told += f * x * x * power;
                plain += x * x * scatter;
                all += x * x * power;
                least += x * x * power * power / scatter;
            }
        }

        return (weighted / (told * told), plain / (all * all), 1 / least);
    }

    private static SpeckleSettings Gaussian(double dot) =>
        new() { DotDiameterPixels = dot, DotsPerPixel = 0.63 / (dot * dot), ContrastFrom = 0.2, ContrastTo = 0.35, MarginPixels = 12, Seed = 8 };

    private static ReferenceSampling Sampling(SpeckleSettings speckle, double noisePercent, MatchConditions? conditions = null) =>
        Assert.IsType<ReferenceSampling>(ReferenceSampling.Of(Picture(speckle, noisePercent), PixelMask.All(Side, Side), conditions ?? new MatchConditions()));

    private static GrayImage Picture(SpeckleSettings speckle, double noisePercent) => SceneRenderer.Render(
        [.. SpecklePattern.Draw(Side, Side, speckle)], PlanarMotion.Identity, Side, Side, speckle, new SensorSettings { NoisePercent = noisePercent, Background = 0.3 }, 6, 0, CancellationToken.None);
}
