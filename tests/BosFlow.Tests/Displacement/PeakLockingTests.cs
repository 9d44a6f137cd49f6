using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Displacement;

public sealed class PeakLockingTests
{
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.03)]
    [InlineData(0.1)]
    public void Strength_OfAWaveOfTheFraction_IsPiTimesItsAmplitude(double amplitude)
    {
        float[] locked = [.. Enumerable.Range(0, 20000).Select(i => -4 + (i / 2500.0)).Select(u => (float)(u - (amplitude * Math.Sin(2 * Math.PI * u))))];

        Assert.Equal(Math.PI * amplitude, PeakLocking.Strength(locked), 0.02);
    }

    [Fact]
    public void Strength_OfAPlumeThatIsMostlyAtRest_IsNotKnown()
    {
        float[] still = [.. Enumerable.Range(0, 20000).Select(i => (float)(0.6 * Math.Exp(-i / 200.0)))];

        Assert.True(double.IsNaN(PeakLocking.Strength(still)));
    }

    [Theory]
    [InlineData(1.2, true)]
    [InlineData(3.0, false)]
    public void DotPixels_OfSmallDots_IsBelowTheLimit(double diameter, bool locks)
    {
        const int Side = 256;
        var speckle = new SpeckleSettings { DotDiameterPixels = diameter, DotsPerPixel = 0.1, MarginPixels = 12, Seed = 4 };
        Dot[] dots = [.. SpecklePattern.Draw(Side, Side, speckle)];
        GrayImage reference = SceneRenderer.Render(dots, PlanarMotion.Identity, Side, Side, speckle.DotSigmaPixels, new SensorSettings { NoisePercent = 2 }, 5, 0, CancellationToken.None);

        double found = new DisplacementEngine(reference, PixelMask.All(Side, Side), new DisplacementSettings()).DotPixels;

        Assert.Equal(locks, found < PeakLocking.SmallestDotPixels);
    }
}
