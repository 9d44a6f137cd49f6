using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Kit;

public sealed class StraightLineTests
{
    [Fact]
    public void Fit_ExactLine_GivesItBack()
    {
        StraightLine line = StraightLine.Fit([-1f, 1f, 3f, float.NaN], [-1.0, 0.0, 1.0, 2.0]);

        Assert.Equal(2, line.Slope, 12);
        Assert.Equal(1, line.Intercept, 12);
    }

    [Fact]
    public void Fit_ConstantTruth_HasNoSlope() =>
        Assert.True(double.IsNaN(StraightLine.Fit([1f, 2f], [3.0, 3.0]).Slope));
}
