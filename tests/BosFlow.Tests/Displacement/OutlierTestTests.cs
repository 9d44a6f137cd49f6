using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

public sealed class OutlierTestTests
{
    [Theory]
    [InlineData(40, 25)]
    [InlineData(11, 7)]
    [InlineData(3, 3)]
    public void ForResult_FieldWithStrayAndMissingVectors_FindsThoseOfTheExactTest(int columns, int rows)
    {
        var grid = new NodeGrid(0, 0, 8, columns, rows);
        var state = new NodeState(grid);
        var random = new Random(5);
        for (int node = 0; node < grid.Count; node++)
        {
            double stray = random.NextDouble() < 0.05 ? 3 * (random.NextDouble() - 0.5) : 0;
            state.U[node] = (float)(Math.Sin(0.3 * (node % columns)) + (0.05 * random.NextDouble()) + stray);
            state.V[node] = (float)((0.1 * (node / columns)) + (0.05 * random.NextDouble()));
            if (random.NextDouble() < 0.03)
                state.Drop(node, VectorFlags.LowCorrelation);
        }

        bool[] trusted = [.. state.Flags.Select(flag => flag == VectorFlags.None)];
        bool[] expected = VectorValidation.FindOutliers(grid, state.U, state.V, trusted, 2, 0.1);

        new OutlierTest(grid).ForResult(state, 2, 0.1, byMedian: true, FrameThreads.One, CancellationToken.None);

        Assert.Equal(expected, state.Flags.Select(flag => flag.HasFlag(VectorFlags.OutlierReplaced)));
    }
}
