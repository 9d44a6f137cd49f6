using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Tests.Pipeline;

public sealed class RowShiftTests
{
    private const int Height = 101;
    private static readonly RowModel Model = RowModel.Known(80, Height, 4, 0);

    [Fact]
    public void TakeOut_FlowAcrossRows_TakesTheMotionOfTheOtherRowOut()
    {
        // Rows move by 0.1 px a row to the right and 0.02 px a row down; the reference's rows by 0.03 px a row. A flow of 0.5 px down.
        VectorField field = Field(u: 0.2f, v: 0.5f);

        RowShift.TakeOut(field, Motion(0.1, 0.02), Motion(0.03, 0));

        Assert.Equal(0.2 - ((0.1 - 0.03) / 1.02 * 0.5), field.U[3], 1e-6);
        Assert.Equal(0.5 - (0.02 / 1.02 * 0.5), field.V[3], 1e-6);
    }

    [Fact]
    public void TakeOut_RowsAtRest_ChangesNothing()
    {
        VectorField field = Field(u: 0.2f, v: 0.5f);

        RowShift.TakeOut(field, Motion(0, 0), null);

        Assert.All(field.U, value => Assert.Equal(0.2, value, 1e-7));
        Assert.All(field.V, value => Assert.Equal(0.5, value, 1e-7));
    }

    [Fact]
    public void TakeOut_RowsThatNothingAnchors_LeavesTheirVectorsOut()
    {
        VectorField field = Field(u: 0.2f, v: 0.5f);
        List<string> warnings = [];

        RowLosses.TakeOut(field, new Steps(), 0.03, (_, _) => false, warnings);

        Assert.Equal(VectorFlags.None, field.Flags[0]);
        Assert.Equal(VectorFlags.NotConverged, field.Flags[^1]);
        Assert.True(float.IsNaN(field.U[^1]) && float.IsNaN(field.SigmaV[^1]));
        Assert.StartsWith("In 3 of 6 rows of vectors", Assert.Single(warnings), StringComparison.Ordinal);
    }

    [Fact]
    public void TakeOut_WindowsBesideLostRows_LeavesThemOut()
    {
        VectorField field = Field(u: 0.2f, v: 0.5f);
        List<string> warnings = [];

        RowLosses.TakeOut(field, new Steps(), double.PositiveInfinity, (_, y) => y < 10, warnings);

        Assert.Equal(VectorFlags.NotConverged, field.Flags[0]);
        Assert.Equal(VectorFlags.None, field.Flags[^1]);
        Assert.Contains("beyond the edge of the frame", Assert.Single(warnings), StringComparison.Ordinal);
    }

    private static RowMotion Motion(double slopeU, double slopeV)
    {
        double[] Line(double slope) => [.. Enumerable.Range(0, Model.Unknowns).Select(i => slope * (i - 1) * Model.Shifts.Spacing)];
        return new RowMotion(Model, Line(slopeU), Line(slopeV));
    }

    private static VectorField Field(float u, float v)
    {
        var grid = new NodeGrid(8, 8, 16, 4, 6);
        float[] Filled(float value) => [.. Enumerable.Repeat(value, grid.Count)];
        return new VectorField
        {
            Grid = grid, U = Filled(u), V = Filled(v), SigmaU = Filled(0.01f), SigmaV = Filled(0.01f),
            Flags = new VectorFlags[grid.Count], Correlation = Filled(1), PeakRatio = Filled(3),
        };
    }

    private sealed class Steps : IMotionUncertainty
    {
        public (double SigmaU, double SigmaV) At(double x, double y) => y < 50 ? (0.01, 0.01) : (0.1, 0.1);

        public double Largest(int width, int height) => 0.1;
    }
}
