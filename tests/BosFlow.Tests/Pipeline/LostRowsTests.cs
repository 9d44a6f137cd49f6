using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Tests.Pipeline;

public sealed class LostRowsTests
{
    private const int Width = 320;
    private const int Height = 240;
    private const int Window = 32;
    private const int Spacing = 16;

    [Fact]
    public void Remove_RowsMovedOutOfTheFrame_LeavesOutTheWindowsNextToThem()
    {
        // Everything moves down by 20 px with a little of each row's own, and right by 12 px: a window is complete up to row 239 - 15.5 - 20, and trusted up to one spacing less.
        var grid = new NodeGrid(15.5, 15.5, Spacing, 19, 14);
        VectorField total = Field(grid, row => (12 + (0.5 * Math.Sin(row / 40)), 20 + (0.5 * Math.Cos(row / 40))));
        var remover = new BackgroundRemover(grid, Window, PixelMask.All(Width, Height), new RegistrationSettings { RowIntervals = 6 }, flowIsDrawn: true);

        float[] totalV = [.. total.V];

        BackgroundRemoval removal = remover.Remove(total, PlanarMotion.Shift(12, 20));

        for (int node = 0; node < grid.Count; node++)
        {
            double y = grid.Y(node / grid.Columns);
            bool isLost = y + totalV[node] > Height - 1 - ((Window - 1) / 2.0) - Spacing;
            Assert.Equal(isLost, removal.Field.Flags[node] != VectorFlags.None);
        }

        // The columns that leave the picture on the right are none of the rows' affair.
        Assert.Equal(VectorFlags.None, removal.Field.Flags[grid.Columns - 1]);
        Assert.Contains(removal.Warnings, warning => warning.Contains("beyond the edge of the frame", StringComparison.Ordinal));
    }

    private static VectorField Field(NodeGrid grid, Func<double, (double U, double V)> at)
    {
        float[] u = new float[grid.Count], v = new float[grid.Count];
        for (int node = 0; node < grid.Count; node++)
        {
            (double nodeU, double nodeV) = at(grid.Y(node / grid.Columns));
            (u[node], v[node]) = ((float)nodeU, (float)nodeV);
        }

        float[] Filled(float value) => [.. Enumerable.Repeat(value, grid.Count)];
        return new VectorField
        {
            Grid = grid,
            U = u,
            V = v,
            SigmaU = Filled(0.005f),
            SigmaV = Filled(0.005f),
            Flags = new VectorFlags[grid.Count],
            Correlation = Filled(0.9f),
            PeakRatio = Filled(5),
        };
    }
}
