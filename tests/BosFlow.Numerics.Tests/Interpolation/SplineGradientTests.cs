using BosFlow.Numerics.Interpolation;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class SplineGradientTests
{
    [Theory]
    [InlineData(1.25, 0.002)]
    [InlineData(2.0, 0.04)]
    public void Compute_PlaneWave_HasTheStatedResponse(double wavenumber, double relative)
    {
        const int Size = 64;
        float[] pixels = new float[Size * Size], gx = new float[Size * Size], gy = new float[Size * Size];
        for (int y = 0; y < Size; y++)
        {
            for (int x = 0; x < Size; x++)
                pixels[(y * Size) + x] = (float)(Math.Sin(wavenumber * x) + Math.Cos(wavenumber * y));
        }

        SplineGradient.Compute(pixels, Size, Size, gx, gy);

        for (int k = 20; k < 44; k++)
        {
            Assert.Equal(wavenumber * Math.Cos(wavenumber * k), gx[(30 * Size) + k], relative * wavenumber);
            Assert.Equal(-wavenumber * Math.Sin(wavenumber * k), gy[(k * Size) + 30], relative * wavenumber);
        }
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.45)]
    [InlineData(0.5)]
    [InlineData(0.6)]
    [InlineData(1.2)]
    public void Response_AnyFrequency_IsTheSumOverTheAliasesOfTheInterpolatedWave(double wavesPerPixel)
    {
        // Unser 1999 (form from memory): the spline through the samples of a wave holds every alias x + j with sinc^6(x + j) / sum over k of sinc^6(x + k); the derivative multiplies each by 2 pi i (x + j).
        const int Aliases = 100;
        double[] aliases = [.. Enumerable.Range(-Aliases, (2 * Aliases) + 1).Select(j => wavesPerPixel + j)];
        double[] powers = [.. aliases.Select(x => Math.Pow(Math.Sin(Math.PI * x) / (Math.PI * x), 6))];

        double sum = aliases.Zip(powers, (x, power) => 2 * Math.PI * x * power).Sum() / powers.Sum();

        // What is left out beyond the aliases falls with the fifth power of their number.
        Assert.Equal(sum, SplineGradient.Response(2 * Math.PI * wavesPerPixel), 1e-9);
    }

    [Fact]
    public void NoiseGain_IsTheSumOfTheSquaredImpulseResponse()
    {
        const int Size = 64;
        float[] pixels = new float[Size * Size], gx = new float[Size * Size], gy = new float[Size * Size];
        pixels[(32 * Size) + 32] = 1;

        SplineGradient.Compute(pixels, Size, Size, gx, gy);

        Assert.Equal(SplineGradient.NoiseGain, gx.Sum(g => (double)g * g), 1e-4);
        Assert.Equal(SplineGradient.NoiseGain, gy.Sum(g => (double)g * g), 1e-4);
    }
}
