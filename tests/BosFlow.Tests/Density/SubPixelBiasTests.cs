using System.Numerics;
using BosFlow.Density;

namespace BosFlow.Tests.Density;

public sealed class SubPixelBiasTests
{
    [Fact]
    public void OfU_ShakenFrames_IsTheMeanOfTheirWaves()
    {
        double[] shifts = [0.02, 0.11, -0.2, 0.35, 0.07];
        Complex phase = shifts.Aggregate(Complex.Zero, (sum, m) => sum + Complex.FromPolarCoordinates(1, 2 * Math.PI * m)) / shifts.Length;
        var bias = new SubPixelBias(0.004, phase, Complex.One);

        foreach (double u in (double[])[0.13, -0.4, 1.27])
        {
            double mean = shifts.Average(m => 0.004 * (Math.Sin(2 * Math.PI * (m + u)) - Math.Sin(2 * Math.PI * m)));
            Assert.Equal(mean, bias.OfU(u), 1e-15);
            Assert.Equal(0.004 * Math.Sin(2 * Math.PI * u), bias.OfV(u), 1e-15);
        }
    }

    [Fact]
    public void OfU_ShiftsSpreadOverAPixel_LeaveNothing()
    {
        Complex phase = Enumerable.Range(0, 8).Aggregate(Complex.Zero, (sum, i) => sum + Complex.FromPolarCoordinates(1, 2 * Math.PI * i / 8)) / 8;

        Assert.Equal(0, new SubPixelBias(0.01, phase, phase).OfU(0.3), 1e-15);
        Assert.Equal(0, SubPixelBias.None.OfV(0.3));
    }
}
