using BosFlow.Density;
using BosFlow.Displacement;

namespace BosFlow.Tests.Density;

public sealed class NodeSamplerTests
{
    private static readonly NodeGrid Grid = new(15.5, 11.5, 8, 14, 12);

    // Places in columns and rows; the degree of the stencil's polynomial in either direction and its number of nodes.
    [Theory]
    [InlineData(6.3, 5.7, 5, 36)]
    [InlineData(2.0, 2.0, 5, 36)]
    [InlineData(0.4, 6.1, 3, 16)]
    [InlineData(12.9, 10.8, 3, 16)]
    [InlineData(-0.4, 11.4, 3, 16)]
    public void Stencil_AllKnown_ReproducesThePolynomial(double column, double row, int degree, int count)
    {
        Check(Enumerable.Repeat(true, Grid.Count).ToArray(), column, row, degree, count);
    }

    // Node (6, 5) is unknown.
    [Theory]
    [InlineData(8.4, 5.5, 3, 16)]
    [InlineData(7.4, 5.5, 1, 4)]
    [InlineData(6.5, 7.5, 3, 16)]
    public void Stencil_BesideAnUnknownNode_FallsBackToTheLargestThatAvoidsIt(double column, double row, int degree, int count)
    {
        bool[] isKnown = [.. Enumerable.Range(0, Grid.Count).Select(node => node != (5 * Grid.Columns) + 6)];

        int[] nodes = Check(isKnown, column, row, degree, count);

        Assert.All(nodes, node => Assert.True(isKnown[node]));
    }

    [Theory]
    [InlineData(5.5, 5.5)]
    [InlineData(6, 5)]
    [InlineData(-0.51, 3)]
    [InlineData(3, 11.51)]
    [InlineData(double.NaN, 3)]
    public void Stencil_AmongUnknownNodesOrOutside_HasNoNode(double column, double row)
    {
        bool[] isKnown = [.. Enumerable.Range(0, Grid.Count).Select(node => node != (5 * Grid.Columns) + 6)];

        Assert.Equal(0, new NodeSampler(Grid, isKnown).Stencil(X(column), Y(row), new int[36], new double[36]));
    }

    [Fact]
    public void Stencil_AtANode_IsThatNodeAlone()
    {
        int[] nodes = new int[36];
        double[] weights = new double[36];

        int count = new NodeSampler(Grid, Enumerable.Repeat(true, Grid.Count).ToArray()).Stencil(Grid.X(7), Grid.Y(4), nodes, weights);

        for (int k = 0; k < count; k++)
            Assert.Equal(nodes[k] == (4 * Grid.Columns) + 7 ? 1 : 0, weights[k], 1e-12);
    }

    private static int[] Check(bool[] isKnown, double column, double row, int degree, int expectedCount)
    {
        int[] nodes = new int[NodeSampler.LargestStencil];
        double[] weights = new double[NodeSampler.LargestStencil];

        int count = new NodeSampler(Grid, isKnown).Stencil(X(column), Y(row), nodes, weights);

        Assert.Equal(expectedCount, count);
        Assert.Equal(1, weights.Take(count).Sum(), 1e-12);
        for (int p = 0; p <= degree; p++)
        {
            for (int q = 0; q <= degree; q++)
            {
                double sum = 0;
                for (int k = 0; k < count; k++)
                    sum += weights[k] * Monomial(nodes[k] % Grid.Columns, p) * Monomial(nodes[k] / Grid.Columns, q);
                Assert.Equal(Monomial(column, p) * Monomial(row, q), sum, 1e-9);
            }
        }

        return nodes[..count];
    }

    private static double X(double column) => Grid.OriginX + (Grid.Spacing * column);

    private static double Y(double row) => Grid.OriginY + (Grid.Spacing * row);

    // Scaled so that powers stay near 1.
    private static double Monomial(double place, int power) => Math.Pow((place - 6.2) / 5, power);
}
