using System.Globalization;
using BosFlow.Numerics.Abel;
using BosFlow.Numerics.Tests.Abel;
using BosFlow.Speckle;

namespace BosFlow.Benchmarks.Density;

/// <summary>Every Abel inversion on analytic pairs: largest error without noise, RMS error with noise.</summary>
internal static class AbelComparison
{
    private static readonly string[] Methods = ["three-point", "onion peeling", "two-point", "summed, three-point", "cubic spline", "fit, cross-validation", "fit, discrepancy", "fit, maximum likelihood"];

    public static IReadOnlyList<string> Header => ["profile", .. Methods];

    /// <summary>A row a pair: errors in percent of the peak; with noise RMS over nodes and draws, without it the largest.</summary>
    public static IEnumerable<IReadOnlyList<string>> Rows(int nodes, double noise, int draws)
    {
        foreach (AbelPair pair in AbelPair.All)
        {
            double[] expected = pair.Sample(pair.Profile, nodes), projection = pair.Sample(pair.Projection, nodes), slope = pair.Sample(pair.Slope, nodes);
            double projectionNoise = noise * projection.Max(), slopeNoise = noise * slope.Max(Math.Abs), sigma = Math.Max(slopeNoise, 1e-3 * slope.Max(Math.Abs));
            double[] error = new double[Methods.Length];
            for (int draw = 0; draw < draws; draw++)
            {
                SeededRandom random = new(SeededRandom.PartSeed(1, draw, nodes));
                double[] noisyProjection = [.. projection.Select(value => value + (projectionNoise * random.NextNormal()))];
                double[] noisySlope = [.. slope.Select(value => value + (slopeNoise * random.NextNormal()))];
                double[][] profiles = Invert(pair, nodes, noisyProjection, noisySlope, sigma);
                for (int k = 0; k < profiles.Length; k++)
                {
                    double[] errors = [.. profiles[k].Select((value, i) => Math.Abs(value - expected[i]) / expected.Max())];
                    error[k] = noise == 0 ? errors.Max() : error[k] + errors.Sum(value => value * value);
                }
            }

            yield return [pair.Name, .. error.Select(value => (100 * (noise == 0 ? value : Math.Sqrt(value / draws / nodes))).ToString("0.000", CultureInfo.InvariantCulture))];
        }
    }

    private static double[][] Invert(AbelPair pair, int nodes, double[] projection, double[] slope, double sigma)
    {
        double spacing = pair.Spacing(nodes);
        double[] radii = [.. Enumerable.Range(0, nodes).Select(i => i * spacing)];
        double[] Fit(StrengthChoice choice)
        {
            RadialFitProblem problem = new() { Position = radii, Slope = slope, Sigma = [.. Enumerable.Repeat(sigma, nodes)], OuterRadius = radii[^1], Choice = choice };
            return RadialProfileFitter.Fit(problem, radii).Value;
        }

        return
        [
            AbelOperators.ThreePoint(nodes, spacing).Apply(projection),
            AbelOperators.OnionPeeling(nodes, spacing).Apply(projection),
            AbelOperators.TwoPoint(nodes).Apply(slope),
            AbelOperators.IntegratedThreePoint(nodes).Apply(slope),
            AbelOperators.CubicSlope(nodes).Apply(slope),
            Fit(StrengthChoice.CrossValidation),
            Fit(StrengthChoice.Discrepancy),
            Fit(StrengthChoice.MaximumLikelihood),
        ];
    }
}
