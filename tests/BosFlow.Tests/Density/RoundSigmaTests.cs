using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Speckle;
using BosFlow.Statistics;
using BosFlow.TestKit;

namespace BosFlow.Tests.Density;

/// <summary>The Monte-Carlo twin of the random uncertainty of round flows.</summary>
public sealed class RoundSigmaTests
{
    private const int Draws = 100;
    private const double Sigma = 0.008;
    private static readonly NodeGrid Grid = new(16, 8, 6, 25, 4);

    [Fact]
    public void SigmaRandom_OverlappingWindows_IsTheScatterAndCoversTheErrors()
    {
        FieldStatistics perfect = KnownDisplacement.Of(Grid, DensityScene.Plume, Sigma);
        var random = new SeededRandom(68);
        RadialProfile[][] draws = [.. Enumerable.Range(0, Draws).Select(_ => Profiles(DensityScene.Noisy(perfect, Sigma, random)))];

        Assert.InRange(VarianceRatio(draws, [.. Enumerable.Range(1, 20)]), 0.9, 1.1);
        foreach (int radius in (int[])[0, 1, 4, 10, 16])
            Assert.Equal(1, Math.Sqrt(VarianceRatio(draws, [radius])), Tolerances.StandardErrors / Math.Sqrt(2 * Draws));
        // Radii near each other err alike: about 8 of the 20 are independent, and two of the four stations.
        double standardError = Math.Sqrt(0.683 * 0.317 / (Draws * 16));
        Assert.Equal(0.683, Coverage(draws, 1), Tolerances.StandardErrors * standardError);
        Assert.Equal(0.954, Coverage(draws, 2), Tolerances.StandardErrors * standardError / 2);
    }

    private static RadialProfile[] Profiles(FieldStatistics mean)
    {
        DensityRequest request = DensityScene.Round(mean) with { ErrorCorrelation = DensityScene.HalfOverlap };
        return [.. DensityConverter.Convert(request, CancellationToken.None).Profiles];
    }

    /// <summary>Mean square of the errors about their truth in units of the sigma stated, over stations and some radii.</summary>
    private static double VarianceRatio(RadialProfile[][] draws, int[] radii) =>
        draws.Average(draw => draw.Average(profile => radii.Average(i => Math.Pow(Error(profile, i), 2))));

    private static double Coverage(RadialProfile[][] draws, double sigmas) =>
        draws.Average(draw => draw.Average(profile => Enumerable.Range(1, 20).Average(i => Math.Abs(Error(profile, i)) < sigmas ? 1.0 : 0)));

    private static double Error(RadialProfile profile, int i) => (profile.Density[i] - DensityScene.PlumeDensity(3 * i)) / profile.SigmaDensityRandom[i];
}
