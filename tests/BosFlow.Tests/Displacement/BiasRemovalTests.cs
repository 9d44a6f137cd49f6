using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

public sealed class BiasRemovalTests
{
    private static readonly NodeGrid Grid = new(16, 16, 8, 37, 11);

    [Fact]
    public void Apply_UniformShift_TakesTheWaveOff()
    {
        NodeState state = State((_, _) => 0.2f, (_, _) => -0.6f);
        state.MotionU.AsSpan().Fill(3);

        new BiasRemoval((0.01, 0.02), Grid, 32).Apply(state, FrameThreads.One, CancellationToken.None);

        Assert.All(state.U, u => Assert.Equal(0.2 - (0.01 * Math.Sin(2 * Math.PI * 3.2)), u, 1e-6));
        Assert.All(state.V, v => Assert.Equal(-0.6 - (0.02 * Math.Sin(2 * Math.PI * -0.6)), v, 1e-6));
    }

    [Fact]
    public void Apply_MovedSums_TakesThePhaseHalfWay()
    {
        NodeState state = State((_, _) => 0.3f, (_, _) => 0);
        state.MovedU.AsSpan().Fill(0.1f);

        new BiasRemoval((0.01, 0.01), Grid, 32).Apply(state, FrameThreads.One, CancellationToken.None);

        Assert.All(state.U, u => Assert.Equal(0.3 - (0.01 * Math.Sin(2 * Math.PI * 0.25)), u, 1e-6));
    }

    [Theory]
    [InlineData(32)]
    [InlineData(24)]
    [InlineData(8)]
    public void Apply_StretchedFieldWithGaps_TakesTheMeanOverTheWindowOff(int window)
    {
        float Field(int column, int row) => column == 5 && row is 4 or 5 ? float.NaN : (0.07f * column) + (0.03f * row);
        NodeState state = State(Field, (_, _) => 0);
        double side = window / Grid.Spacing;
        double Weight(int offset) => Math.Min(1, Math.Max(0, (side / 2) + 0.5 - Math.Abs(offset)));

        new BiasRemoval((0.01, 0), Grid, window).Apply(state, FrameThreads.One, CancellationToken.None);

        for (int node = 0; node < Grid.Count; node++)
        {
            int column = node % Grid.Columns, row = node / Grid.Columns;
            double wave = 0, weights = 0;
            for (int other = 0; other < Grid.Count; other++)
            {
                double weight = Weight((other % Grid.Columns) - column) * Weight((other / Grid.Columns) - row), u = Field(other % Grid.Columns, other / Grid.Columns);
                if (double.IsNaN(u))
                    continue;
                wave += weight * Math.Sin(2 * Math.PI * u);
                weights += weight;
            }

            if (float.IsNaN(Field(column, row)))
                Assert.True(float.IsNaN(state.U[node]));
            else
                Assert.Equal(Field(column, row) - (0.01 * wave / weights), state.U[node], 2e-6);
        }
    }

    private static NodeState State(Func<int, int, float> u, Func<int, int, float> v)
    {
        var state = new NodeState(Grid);
        for (int node = 0; node < Grid.Count; node++)
        {
            state.U[node] = u(node % Grid.Columns, node / Grid.Columns);
            state.V[node] = v(node % Grid.Columns, node / Grid.Columns);
        }

        return state;
    }
}
