using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

public sealed class WindowResponseTests
{
    [Fact]
    public void MissingPerFourthDifference_WaveOfThreeWindows_IsEightPercent()
    {
        const double Spacing = 16;
        double factor = WindowResponse.MissingPerFourthDifference(new DisplacementSettings { WindowPixels = 32, PredictorSmoothings = 2 }, Spacing);

        Assert.Equal(0.08, factor * FourthDifference(3 * 32, Spacing), 0.005);
    }

    [Theory]
    [InlineData(1, WindowWeighting.TopHat)]
    [InlineData(2, WindowWeighting.TopHat)]
    [InlineData(2, WindowWeighting.Gaussian)]
    public void MissingPerFourthDifference_LongWave_EqualsWhatThePassesSettleAt(int smoothings, WindowWeighting weighting)
    {
        const double Spacing = 8;
        const double Wave = 12 * 32;
        var settings = new DisplacementSettings { WindowPixels = 32, PredictorSmoothings = smoothings, Weighting = weighting };

        double missing = WindowResponse.MissingPerFourthDifference(settings, Spacing) * FourthDifference(Wave, Spacing);

        // One pass: the predictor smoothed by (1 2 1) / 4, plus what the window's average finds of the rest; wave by wave these are factors.
        double k = 2 * Math.PI / Wave;
        double smoothed = Math.Pow((1 + Math.Cos(k * Spacing)) / 2, smoothings);
        double window = Response(k, weighting);
        double found = 0;
        for (int pass = 0; pass < 100; pass++)
            found = (smoothed * found) + (window * (1 - (smoothed * found)));
        Assert.Equal(1 - found, missing, 0.05 * (1 - found));
    }

    [Fact]
    public void MissingPerFourthDifference_NoSmoothing_IsZero() =>
        Assert.Equal(0, WindowResponse.MissingPerFourthDifference(new DisplacementSettings { PredictorSmoothings = 0 }, 16));

    private static double FourthDifference(double wave, double spacing) => Math.Pow(2 - (2 * Math.Cos(2 * Math.PI * spacing / wave)), 2);

    private static double Response(double k, WindowWeighting weighting)
    {
        double[] weights = [.. Enumerable.Range(0, 32).Select(i => weighting == WindowWeighting.TopHat ? 1 : Math.Exp(-0.5 * Math.Pow((i - 15.5) / 8, 2)))];
        return weights.Select((weight, i) => weight * Math.Cos(k * (i - 15.5))).Sum() / weights.Sum();
    }
}
