using System.Numerics;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;
using MathNet.Numerics.IntegralTransforms;

namespace BosFlow.Tests.Displacement;

/// <summary>What a noisy reference lets expect of its grey levels, and what is wrong in them from pixel to pixel.</summary>
public sealed class LevelFilterTests
{
    private const int Side = 256;
    private const int Rings = 64;

    [Theory]
    [InlineData(2, 5)]
    [InlineData(3, 2)]
    [InlineData(5, 5)]
    public void Apply_NoisyDots_ComesNearTheBestThereIs(double dot, double noisePercent)
    {
        // The best: every wave of MathNet's transform times P / (P + n), P the mean power of clear dots in rings of equal frequency, n the exact variance of the noise.
        float[] clear = Levels(Picture(dot, 0, 0)), noisy = Levels(Picture(dot, noisePercent, 1)), filtered = [.. noisy];
        Sampling(Picture(dot, noisePercent, 1)).Levels.Apply(filtered, Ones(), Side);

        double best = MeanSquare(Wiener(clear, noisy, Math.Pow(0.01 * noisePercent * 255, 2) + (1.0 / 12)), clear);

        Assert.True(best < 0.7 * MeanSquare(noisy, clear), $"The scene lacks noise: {best} DN^2.");
        Assert.InRange(MeanSquare(filtered, clear) / best, 0.98, 1.15);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    public void Apply_ClearDots_ChangesNothing(double dot)
    {
        GrayImage picture = Picture(dot, 0, 0);
        float[] levels = Levels(picture), filtered = [.. levels];

        Sampling(picture).Levels.Apply(filtered, Ones(), Side);

        // Rounding to 8 bits is noise of 0.29 DN.
        Assert.InRange(Math.Sqrt(MeanSquare(filtered, levels)), 0, 0.3);
    }

    [Fact]
    public void Apply_PixelsThatLackOthersAroundThem_KeepTheirOwnLevels()
    {
        GrayImage picture = Picture(3, 5, 0);
        float[] levels = Levels(picture), filtered = [.. levels], known = Ones();
        const int Missing = (100 * Side) + 120;
        known[Missing] = 0;

        Sampling(picture).Levels.Apply(filtered, known, Side);

        for (int y = 0; y < Side; y++)
        {
            for (int x = 0; x < Side; x++)
            {
                bool atBorder = Math.Min(Math.Min(x, Side - 1 - x), Math.Min(y, Side - 1 - y)) < GradientFilter.Reach;
                bool isNear = Math.Abs(x - (Missing % Side)) <= GradientFilter.Reach && Math.Abs(y - (Missing / Side)) <= GradientFilter.Reach;
                Assert.Equal(atBorder || isNear, filtered[(y * Side) + x] == levels[(y * Side) + x]);
            }
        }
    }

    [Theory]
    [InlineData(3, 8)]
    [InlineData(5, 8)]
    [InlineData(5, 1)]
    public void SharedNoise_OfBlocks_IsWhatWindowsScatterBeyondThem(double dot, int blockSide)
    {
        // The sums themselves: filtered derivatives times what is wrong in the levels of one picture and the noise of another, read between its pixels.
        const int Window = 32, Seeds = 6;
        double blocks = 0, windows = 0, factor = 0;
        for (int seed = 0; seed < Seeds; seed++)
        {
            GrayImage clear = Picture(dot, 0, 0, seed), noisy = Picture(dot, 5, 1, seed), other = Picture(dot, 5, 2, seed);
            PixelMask all = PixelMask.All(Side, Side);
            var texture = new ReferenceTexture(noisy, all, Sampling(noisy));
            float[] noise = [.. Enumerable.Range(0, Side * Side).Select(i => other.Pixels[i] - clear.Pixels[i])];
            var between = new BSplineImage(noise, Side, Side, 5);
            double fraction = (seed + 0.5) / Seeds;
            double Wrong(int x, int y) => between.Sample(x + fraction, y + 0.37) - (texture.Level[(y * Side) + x] + texture.MeanLevel - clear.Pixels[(y * Side) + x]);
            foreach (float[] derivative in (float[][])[texture.GradientX, texture.GradientY])
            {
                double Square(int left, int top, int side)
                {
                    double sum = 0;
                    for (int y = top; y < top + side; y++)
                    {
                        for (int x = left; x < left + side; x++)
                            sum += derivative[(y * Side) + x] * Wrong(x, y);
                    }

                    return sum * sum / (side * side);
                }

                for (int top = 16; top < Side - 16; top += Window)
                {
                    for (int left = 16; left < Side - 16; left += Window)
                    {
                        windows += Square(left, top, Window);
                        for (int block = 0; block < Window * Window / (blockSide * blockSide); block++)
                            blocks += Square(left + (block % (Window / blockSide) * blockSide), top + (block / (Window / blockSide) * blockSide), blockSide) * blockSide * blockSide / (Window * Window);
                    }
                }
            }

            factor += Sampling(noisy).Shared.Factor(blockSide, Window) / Seeds;
        }

        // 588 windows know a variance to 6 %; most of that is in the blocks too.
        Assert.InRange(windows / blocks / factor, 0.9, 1.1);
        Assert.True(blockSide > 1 || factor > 1.5, $"{factor}");
        Assert.Equal(1, Sampling(Picture(dot, 5, 1)).Shared.Factor(Window, Window), 12);
    }

    [Fact]
    public void Measure_WindowsThatAreNotSumsOfBlocks_KnowSharedNoise()
    {
        // Residuals alone would state a quarter less.
        StudyResult result = SigmaStudy.Run("odd spacing", new DisplacementSettings { SpacingPixels = 15 }, [5], [5], _ => false, CancellationToken.None);

        Assert.InRange(result.Figures.Single(figure => figure.Name.EndsWith("within 1 sigma", StringComparison.Ordinal)).Value, 0.65, 0.71);
    }

    private static float[] Wiener(float[] clear, float[] noisy, double noise)
    {
        Complex[] pattern = Transform(clear), waves = Transform(noisy);
        double[] power = new double[Rings], count = new double[Rings];
        for (int i = 0; i < pattern.Length; i++)
        {
            power[Ring(i)] += Math.Pow(pattern[i].Magnitude, 2);
            count[Ring(i)]++;
        }

        for (int i = 0; i < waves.Length; i++)
        {
            double mean = power[Ring(i)] / count[Ring(i)];
            waves[i] *= mean / (mean + noise);
        }

        return [.. AlongBoth(waves, line => Fourier.Inverse(line)).Select(value => (float)value.Real)];
    }

    // Unitary: white noise of variance n has the mean power n.
    private static Complex[] Transform(float[] levels) => AlongBoth([.. levels.Select(level => new Complex(level, 0))], line => Fourier.Forward(line));

    private static Complex[] AlongBoth(Complex[] plane, Action<Complex[]> transform)
    {
        for (int axis = 0; axis < 2; axis++)
        {
            Complex[] turned = new Complex[plane.Length];
            for (int y = 0; y < Side; y++)
            {
                Complex[] line = plane[(y * Side)..((y + 1) * Side)];
                transform(line);
                for (int x = 0; x < Side; x++)
                    turned[(x * Side) + y] = line[x];
            }

            plane = turned;
        }

        return plane;
    }

    private static int Ring(int i)
    {
        int x = Math.Min(i % Side, Side - (i % Side)), y = Math.Min(i / Side, Side - (i / Side));
        return Math.Min(Rings - 1, (int)(Math.Sqrt((x * x) + (y * y)) * Rings * Math.Sqrt(2) / Side));
    }

    // Without the border, where nothing is filtered.
    private static double MeanSquare(float[] found, float[] expected)
    {
        const int Border = GradientFilter.Reach;
        double sum = 0;
        for (int y = Border; y < Side - Border; y++)
        {
            for (int x = Border; x < Side - Border; x++)
                sum += Math.Pow(found[(y * Side) + x] - expected[(y * Side) + x], 2);
        }

        return sum / Math.Pow(Side - (2 * Border), 2);
    }

    private static float[] Ones() => [.. Enumerable.Repeat(1f, Side * Side)];

    private static float[] Levels(GrayImage picture)
    {
        float mean = picture.Pixels.ToArray().Average();
        return [.. picture.Pixels.ToArray().Select(level => level - mean)];
    }

    private static ReferenceSampling Sampling(GrayImage picture) => Assert.IsType<ReferenceSampling>(ReferenceSampling.Of(picture, PixelMask.All(Side, Side), new MatchConditions()));

    // Dots that seldom reach white.
    private static GrayImage Picture(double dot, double noisePercent, int frame, int seed = 0)
    {
        var speckle = new SpeckleSettings { DotDiameterPixels = dot, DotsPerPixel = 0.63 / (dot * dot), ContrastFrom = 0.2, ContrastTo = 0.35, MarginPixels = 12, Seed = 8 + (ulong)seed };
        return SceneRenderer.Render([.. SpecklePattern.Draw(Side, Side, speckle)], PlanarMotion.Identity, Side, Side, speckle, new SensorSettings { NoisePercent = noisePercent, Background = 0.3 }, 6, frame, CancellationToken.None);
    }
}
