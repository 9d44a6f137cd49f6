using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Kit;

public sealed class KernelErrorTests
{
    [Fact]
    public void OfDot_CancellingSum_IsScaledByTheAbsoluteProducts()
    {
        // 1000 * 1 - 1000 * 1 = 0; an error of 0.002 is one part in a million of the 2000 that were added.
        double error = KernelError.OfDot(0.002, [1000f, 1000f], [1f, -1f]);

        Assert.Equal(1e-6, error, 15);
    }

    [Fact]
    public void Worst_NaNAgainstNumber_IsInfinite()
    {
        Assert.Equal(double.PositiveInfinity, KernelError.Worst([float.NaN, 1f], [0.0, 1.0]));
        Assert.Equal(double.PositiveInfinity, KernelError.Worst([0f, 1f], [double.NaN, 1.0]));
        Assert.Equal(0, KernelError.Worst([float.NaN, 1f], [double.NaN, 1.0]));
    }

    [Fact]
    public void Scaled_ScaleZeroAndDifferent_IsInfinite() =>
        Assert.Equal(double.PositiveInfinity, KernelError.Scaled(1, 0, 0));
}
