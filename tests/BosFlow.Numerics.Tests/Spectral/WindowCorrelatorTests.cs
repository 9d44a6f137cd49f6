using BosFlow.Numerics.Spectral;

namespace BosFlow.Numerics.Tests.Spectral;

public sealed class WindowCorrelatorTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(3, -2)]
    [InlineData(-7, 5)]
    public void Correlate_CircularShift_FindsItWithValueOne(int dx, int dy)
    {
        float[] a = Texture(16, seed: 1);
        float[] b = Shifted(a, 16, dx, dy);

        CorrelationPeak peak = new WindowCorrelator(16).Correlate(a, b);

        Assert.Equal(dx, peak.Dx, 0.5);
        Assert.Equal(dy, peak.Dy, 0.5);
        Assert.Equal(1, peak.Value, 1e-5);
        Assert.True(peak.PeakRatio > 1);
    }

    [Fact]
    public void Correlate_TwoTextures_PeakEqualsTheDirectSum()
    {
        float[] a = Texture(16, seed: 2), b = Texture(16, seed: 3);

        CorrelationPeak peak = new WindowCorrelator(16).Correlate(a, b);

        double best = double.NegativeInfinity;
        for (int dy = -7; dy <= 7; dy++)
        {
            for (int dx = -7; dx <= 7; dx++)
                best = Math.Max(best, DirectCorrelation(a, b, 16, dx, dy));
        }

        Assert.Equal(best, peak.Value, 1e-5);
    }

    [Fact]
    public void Correlate_SeveralLanes_EachIsBitIdenticalToALaneAlone()
    {
        var wide = new WindowCorrelator(32, lanes: 8);
        var alone = new WindowCorrelator(32);
        for (int lane = 0; lane < 8; lane++)
            wide.SetWindows(lane, Texture(32, seed: lane), Shifted(Texture(32, seed: lane), 32, lane - 4, 2));
        var peaks = new CorrelationPeak[8];

        wide.Correlate(peaks, 15);

        for (int lane = 0; lane < 8; lane++)
            Assert.Equal(alone.Correlate(Texture(32, seed: lane), Shifted(Texture(32, seed: lane), 32, lane - 4, 2)), peaks[lane]);
    }

    [Fact]
    public void Correlate_WindowWithoutContrast_GivesNaN()
    {
        CorrelationPeak peak = new WindowCorrelator(16).Correlate(new float[256], Texture(16, seed: 4));

        Assert.True(double.IsNaN(peak.Dx));
        Assert.Equal(0, peak.Value);
    }

    [Fact]
    public void GaussianFit_GaussianPeak_IsExact()
    {
        double At(double x) => Math.Exp(-(x - 0.3) * (x - 0.3) / 2);

        Assert.Equal(0.3, ThreePointFit.Gaussian(At(-1), At(0), At(1)), 1e-12);
    }

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(1, 1, 1)]
    [InlineData(2, 1, 2)]
    public void GaussianFit_NoMaximum_GivesZero(double before, double top, double after) =>
        Assert.Equal(0, ThreePointFit.Gaussian(before, top, after));

    private static float[] Texture(int size, int seed)
    {
        var random = new Random(seed);
        float[] raw = new float[size * size];
        for (int i = 0; i < raw.Length; i++)
            raw[i] = (float)(random.NextDouble() * 200);
        return raw;
    }

    private static float[] Shifted(float[] source, int size, int dx, int dy)
    {
        float[] moved = new float[source.Length];
        for (int y = 0; y < size; y++)
        {
            for (int x = 0; x < size; x++)
                moved[(((y + dy) & (size - 1)) * size) + ((x + dx) & (size - 1))] = source[(y * size) + x];
        }

        return moved;
    }

    private static double DirectCorrelation(float[] a, float[] b, int size, int dx, int dy)
    {
        double meanA = a.Average(v => (double)v), meanB = b.Average(v => (double)v);
        double cross = 0, aa = 0, bb = 0;
        for (int y = 0; y < size; y++)
        {
            for (int x = 0; x < size; x++)
            {
                double p = a[(y * size) + x] - meanA;
                double q = b[(((y + dy) & (size - 1)) * size) + ((x + dx) & (size - 1))] - meanB;
                cross += p * q;
                aa += p * p;
                bb += q * q;
            }
        }

        return cross / Math.Sqrt(aa * bb);
    }
}
