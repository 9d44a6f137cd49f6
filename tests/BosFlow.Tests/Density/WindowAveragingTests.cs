using BosFlow.Density;
using BosFlow.Displacement;

namespace BosFlow.Tests.Density;

public sealed class WindowAveragingTests
{
    private const double Factor = 0.08;
    private static readonly NodeGrid Grid = new(15.5, 15.5, 8, 24, 12);

    [Theory]
    [InlineData(6)]
    [InlineData(12)]
    public void Restored_Wave_GainsThePredictedShare(double nodesPerWave)
    {
        double k = 2 * Math.PI / nodesPerWave;
        SightlineField field = Field((column, _) => 0.2 * Math.Sin((k * column) + 0.3));

        SightlineField restored = WindowAveraging.Restored(field, Factor);

        // Of a wave the second difference of neighbours takes 2 - 2 cos k, the smoothing (1 + cos k) / 2 (derived).
        double share = Factor * Math.Pow(2 - (2 * Math.Cos(k)), 2) * (1 + Math.Cos(k)) / 2;
        for (int column = 3; column < Grid.Columns - 3; column++)
        {
            int node = (5 * Grid.Columns) + column;
            Assert.Equal(share * field.U[node], restored.U[node] - field.U[node], 1e-6);
            Assert.Equal(0, restored.V[node] - field.V[node], 1e-12);
        }
    }

    [Fact]
    public void Restored_CubicField_StaysAsItIs()
    {
        SightlineField field = Field((column, row) => (0.02 * column) - (0.03 * row) + (1e-3 * column * row) + (1e-4 * column * column * column));

        SightlineField restored = WindowAveraging.Restored(field, Factor);

        for (int node = 0; node < Grid.Count; node++)
            Assert.Equal(field.U[node], restored.U[node], 1e-5);
    }

    [Fact]
    public void Restored_BesideAGap_StaysAsItIs()
    {
        SightlineField field = Field((column, row) => column == 10 && row == 6 ? double.NaN : 0.2 * Math.Sin(column));

        SightlineField restored = WindowAveraging.Restored(field, Factor);

        Assert.Equal(field.U[(6 * Grid.Columns) + 12], restored.U[(6 * Grid.Columns) + 12]);
        Assert.NotEqual(field.U[(6 * Grid.Columns) + 16], restored.U[(6 * Grid.Columns) + 16]);
        Assert.True(double.IsNaN(restored.U[(6 * Grid.Columns) + 10]));
    }

    /// <summary>A field without v, whose u is given at the nodes.</summary>
    private static SightlineField Field(Func<int, int, double> u)
    {
        SightlineField still = SightlineField.Of(KnownDisplacement.Of(Grid, (_, _) => (0, 0), 0.01), 0);
        return still.Plus([.. Enumerable.Range(0, Grid.Count).Select(node => u(node % Grid.Columns, node / Grid.Columns))], new double[Grid.Count]);
    }
}
