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
