using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Speckle;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Tests.Density;

public sealed class DisplacementErrorsTests
{
    private static readonly NodeGrid Grid = new(15.5, 15.5, 8, 7, 6);

    [Fact]
    public void Covariance_OfCombinations_EqualsTheDenseProduct()
    {
        double[] correlation = [1, 0.75, 0.5, 0.25];
        var random = new SeededRandom(31);
        float[] sigma = [.. Enumerable.Range(0, Grid.Count).Select(_ => (float)(0.01 + (0.02 * random.NextUniform())))];
        SightlineField field = SightlineField.Of(KnownDisplacement.Of(Grid, new float[Grid.Count], new float[Grid.Count], sigma), 0);
        NodeCombination[] samples = [.. Enumerable.Range(0, 5).Select(_ => Combination(random))];

        double[] covariance = new DisplacementErrors(field, correlation).Covariance(new SlopeProfile(samples, new bool[samples.Length]));

        Matrix<double> nodes = Matrix<double>.Build.Dense(Grid.Count, Grid.Count, (a, b) => field.SigmaU[a] * field.SigmaU[b]
            * At(correlation, Math.Abs((a % Grid.Columns) - (b % Grid.Columns))) * At(correlation, Math.Abs((a / Grid.Columns) - (b / Grid.Columns))));
        Matrix<double> u = Weights(samples, sample => sample.WeightsU);
        Matrix<double> v = Weights(samples, sample => sample.WeightsV);
        Matrix<double> expected = (u * nodes * u.Transpose()) + (v * nodes * v.Transpose());
        for (int i = 0; i < samples.Length; i++)
        {
            for (int j = 0; j < samples.Length; j++)
                Assert.Equal(expected[i, j], covariance[(i * samples.Length) + j], 1e-12);
        }
    }

    private static double At(double[] correlation, int distance) => distance < correlation.Length ? correlation[distance] : 0;

    // Nine nodes, of which some occur twice.
    private static NodeCombination Combination(SeededRandom random) => new(
        [.. Enumerable.Range(0, 9).Select(_ => (int)(random.NextUniform() * 20))], [.. Enumerable.Range(0, 9).Select(_ => random.NextNormal())], [.. Enumerable.Range(0, 9).Select(_ => random.NextNormal())]);

    private static Matrix<double> Weights(NodeCombination[] samples, Func<NodeCombination, double[]> weights)
    {
        Matrix<double> matrix = Matrix<double>.Build.Dense(samples.Length, Grid.Count);
        for (int i = 0; i < samples.Length; i++)
        {
            for (int k = 0; k < samples[i].Nodes.Length; k++)
                matrix[i, samples[i].Nodes[k]] += weights(samples[i])[k];
        }

        return matrix;
    }
}
