using BosFlow.Displacement;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class CramerRaoBoundTests
{
    // Sum of fx^2 / A^2 of one pixel-integrated Gaussian dot by e^-2 diameter and sub-pixel phase, computed by an independent script; for wide dots it tends to pi / 2.
    [Theory]
    [InlineData(2.5, 0.25, 1.056)]
    [InlineData(3.0, 0.0, 1.141)]
    [InlineData(3.0, 0.25, 1.183)]
    [InlineData(3.0, 0.5, 1.225)]
    [InlineData(4.0, 0.0, 1.334)]
    [InlineData(4.0, 0.5, 1.336)]
    [InlineData(16.0, 0.2, 1.5708)]
    public void Mean_OneDot_GivesTheInformationOfADot(double diameter, double phase, double information)
    {
        // Amplitude 100, noise 2 digital numbers in both pictures, no rounding: sigma_u^2 = 2 * 2^2 / (information * 100^2).
        Dot[] dot = [new Dot(32 + phase, 32 + phase, 100.0 / 255)];
        var sensor = new SensorSettings { NoisePercent = 200.0 / 255, Bits = 0, Background = 0 };
        double bound = CramerRaoBound.Mean(dot, 66, 66, diameter / 4, sensor, new NodeGrid(32.5, 32.5, 16, 1, 1), 64, CancellationToken.None);
        Assert.Equal(information, 2 * 4 / (bound * bound * 1e4), 0.015 * information);
    }

    [Fact]
    public void Mean_ManyDots_FollowsTheLawOfCounts()
    {
        // sigma_u >= (s / A) sqrt(2 / (pi n)) for n ideal dots (derived by hand); small dots have 1.18 instead of pi / 2.
        var speckle = new SpeckleSettings { DotsPerPixel = 0.04, ContrastFrom = 0.4, ContrastTo = 0.4, MinimumGapPixels = 3.8 };
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(160, 160, speckle);
        var sensor = new SensorSettings { NoisePercent = 2, Bits = 0 };
        double bound = CramerRaoBound.Mean(pattern, 160, 160, 0.75, sensor, new NodeGrid(31.5, 31.5, 32, 4, 4), 32, CancellationToken.None);
        double expected = Math.Sqrt(2) * 0.02 / 0.4 / Math.Sqrt(1.18 * 0.04 * 32 * 32);
        Assert.Equal(expected, bound, 0.06 * expected);
    }

    [Theory]
    [InlineData(2, 1.186)]
    [InlineData(3, 1.049)]
    [InlineData(5, 1.003)]
    public void OfPixels_ManyDots_IsLargerAsSmallDotsHaveMoreBeyondThePixels(double diameter, double ratio)
    {
        // Evaluated apart from the program with NumPy and SciPy (convolve1d) for another 1024 windows of such dots.
        var speckle = new SpeckleSettings { DotDiameterPixels = diameter, DotsPerPixel = 0.63 / (diameter * diameter), ContrastFrom = 110.0 / 255, ContrastTo = 170.0 / 255, MarginPixels = 12, Seed = 2 };
        IReadOnlyList<Dot> pattern = SpecklePattern.Draw(352, 352, speckle);
        var sensor = new SensorSettings { NoisePercent = 5, Bits = 0, Background = 20.0 / 255 };
        var grid = new NodeGrid(31.5, 31.5, 32, 9, 9);
        double exact = CramerRaoBound.Mean(pattern, 352, 352, diameter / 4, sensor, grid, 32, CancellationToken.None);
        double ofPixels = CramerRaoBound.OfPixels(pattern, 352, 352, diameter / 4, sensor, grid, 32, CancellationToken.None);
        Assert.Equal(ratio, ofPixels / exact, 0.012);
    }
}
