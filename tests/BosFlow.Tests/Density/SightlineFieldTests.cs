using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Statistics;

namespace BosFlow.Tests.Density;

public sealed class SightlineFieldTests
{
    private static readonly NodeGrid Grid = new(15.5, 15.5, 16, 12, 10);

    [Fact]
    public void Of_StrainedField_GivesTheDisplacementAtThePlacesOfTheFlowPlane()
    {
        // Up to 4 px, its gradient up to 0.06: at the places of the picture it would be wrong by 0.2 px.
        static (double U, double V) Truth(double x, double y) => (4 * Math.Sin(x / 70), 3 * Math.Cos(y / 65) * Math.Sin(x / 90));

        SightlineField field = SightlineField.Of(KnownDisplacement.Of(Grid, Truth, 0.01), 0);

        double worst = 0;
        double worstOnPicture = 0;
        for (int row = 2; row < Grid.Rows - 3; row++)
        {
            for (int column = 2; column < Grid.Columns - 3; column++)
            {
                int node = (row * Grid.Columns) + column;
                (double u, double v) = Truth(Grid.X(column), Grid.Y(row));
                worst = Math.Max(worst, Math.Max(Math.Abs(field.U[node] - u), Math.Abs(field.V[node] - v)));
                worstOnPicture = Math.Max(worstOnPicture, Math.Abs(KnownDisplacement.Of(Grid, Truth, 0.01).MeanU[node] - u));
            }
        }

        // Between nodes 16 px apart the polynomial leaves this much of such waves.
        Assert.True(worst < 5e-4, $"{worst} px");
        Assert.True(worstOnPicture > 0.1, $"{worstOnPicture} px");
    }

    [Fact]
    public void Of_MissingNode_IsKnownNowhereAround()
    {
        FieldStatistics mean = KnownDisplacement.Of(Grid, (_, _) => (0.3, -0.2), 0.01);
        mean.MeanU[(4 * Grid.Columns) + 5] = float.NaN;

        SightlineField field = SightlineField.Of(mean, 0);

        Assert.False(field.IsKnown[(4 * Grid.Columns) + 5]);
        Assert.True(double.IsNaN(field.U[(4 * Grid.Columns) + 5]) && double.IsNaN(field.SigmaU[(4 * Grid.Columns) + 5]));
        Assert.True(field.IsKnown[(6 * Grid.Columns) + 5]);
        Assert.Equal(0.3, field.U[(6 * Grid.Columns) + 5], 1e-6);
    }

    [Theory]
    [InlineData(0.05, 0.03, 0.04)]
    [InlineData(0.05, 0.05, 0.0111803399)]
    public void Of_SystematicPart_IsTakenOutOfTheSigma(double sigma, double bias, double expected)
    {
        SightlineField field = SightlineField.Of(KnownDisplacement.Of(Grid, (_, _) => (0, 0), sigma), bias);

        Assert.All(field.SigmaU.Concat(field.SigmaV), value => Assert.Equal(expected, value, 1e-8));
    }
}
