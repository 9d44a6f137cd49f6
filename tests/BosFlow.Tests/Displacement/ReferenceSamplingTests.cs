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

        (double x, double y) = Sampling(Gaussian(dot), 0.5).Bias(order);

        Assert.InRange(x / exact, 0.85, 1.15);
        Assert.InRange(y / exact, 0.85, 1.15);
    }

    [Fact]
    public void Of_NoiseAlone_SaysNothingOrNoBias()
    {
        ReferenceSampling? sampling = ReferenceSampling.Of(Picture(Gaussian(3) with { ContrastFrom = 0, ContrastTo = 0 }, 5), PixelMask.All(Side, Side));

        Assert.True(sampling is null || sampling.DotPixels.X < KnownBias.SmallestDotPixels || sampling.Bias(InterpolationOrder.Quintic).X < 0.001);
    }

    [Fact]
    public void Of_MaskThatLeavesNoStretch_SaysNothing()
    {
        byte[] stripes = [.. Enumerable.Range(0, Side * Side).Select(i => (i % Side % 20 == 0) || (i / Side % 20 == 0) ? (byte)0 : (byte)1)];

        Assert.Null(ReferenceSampling.Of(Picture(Gaussian(3), 1), new PixelMask(Side, Side, stripes)));
    }

    [Fact]
    public void Filter_OfANoisyPattern_HasTheWeightsOfTheFormula()
    {
        GradientFilter filter = Sampling(Gaussian(3), 5).Filter;

        // (1 + r) / (1 + r P(0) / P(w)) with the exact power of Gaussian dots: P(w) = density * mean squared amplitude * (2 pi s^2)^2 exp(-s^2 w^2) sinc^2, both axes.
        const double Sigma = 0.75;
        double amplitude = Enumerable.Range(0, 1001).Average(i => Math.Pow(255 * (0.2 + (0.15 * i / 1000)), 2));
        double share = Math.Pow(0.05 * 255, 2) / (0.07 * amplitude * Math.Pow(2 * Math.PI * Sigma * Sigma, 2));
        foreach (double w in (double[])[0, 0.8, 1.6, 2.4, 3.0])
        {
            double pixel = w == 0 ? 1 : Math.Sin(w / 2) / (w / 2);
            double expected = (1 + share) / (1 + (share / (Math.Exp(-Sigma * Sigma * w * w) * pixel * pixel)));
            Assert.Equal(expected, GradientFilter.Response(filter.AlongX, w), 0.06);
        }
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

    private static SpeckleSettings Gaussian(double dot) =>
        new() { DotDiameterPixels = dot, DotsPerPixel = 0.63 / (dot * dot), ContrastFrom = 0.2, ContrastTo = 0.35, MarginPixels = 12, Seed = 8 };

    private static ReferenceSampling Sampling(SpeckleSettings speckle, double noisePercent) =>
        Assert.IsType<ReferenceSampling>(ReferenceSampling.Of(Picture(speckle, noisePercent), PixelMask.All(Side, Side)));

    private static GrayImage Picture(SpeckleSettings speckle, double noisePercent) => SceneRenderer.Render(
        [.. SpecklePattern.Draw(Side, Side, speckle)], PlanarMotion.Identity, Side, Side, speckle, new SensorSettings { NoisePercent = noisePercent, Background = 0.3 }, 6, 0, CancellationToken.None);
}
