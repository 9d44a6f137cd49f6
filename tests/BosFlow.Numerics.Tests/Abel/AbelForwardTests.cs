using BosFlow.Numerics.Abel;

namespace BosFlow.Numerics.Tests.Abel;

public sealed class AbelForwardTests
{
    [Theory]
    [InlineData(0.3, 0.7852953796)]
    [InlineData(0.7, 0.2753046741)]
    public void Projection_Cone_IsItsClosedForm(double y, double expected)
    {
        // f = 1 - r: F = sqrt(1 - y^2) - y^2 arccosh(1 / y); the digits were computed apart by quadrature.
        double[] cone = [1, 0.75, 0.5, 0.25, 0];

        Assert.Equal(expected, AbelForward.Projection(cone, 0.25, y), 1e-10);
        Assert.Equal(expected, AbelForward.Projection(cone, 0.25, -y), 1e-10);
        Assert.Equal(-2 * y * Math.Acosh(1 / y), AbelForward.Slope(cone, 0.25, y), 1e-12);
        Assert.Equal(2 * y * Math.Acosh(1 / y), AbelForward.Slope(cone, 0.25, -y), 1e-12);
    }

    [Fact]
    public void Slope_AnyProfile_IsTheDerivativeOfItsProjection()
    {
        double[] profile = [0.3, 1.2, -0.4, 0.9, 0.2, 0];
        const double Step = 1e-5;
        foreach (double y in (double[])[0.05, 0.21, 0.5, 0.77])
        {
            double derivative = (AbelForward.Projection(profile, 0.2, y + Step) - AbelForward.Projection(profile, 0.2, y - Step)) / (2 * Step);

            Assert.Equal(derivative, AbelForward.Slope(profile, 0.2, y), 1e-6);
        }
    }

    [Fact]
    public void Projection_AtAndBeyondTheEnds_HasItsLimits()
    {
        double[] cone = [1, 0.5, 0];

        Assert.Equal(1, AbelForward.Projection(cone, 0.5, 0), 1e-14);
        Assert.Equal(0, AbelForward.Slope(cone, 0.5, 0));
        Assert.Equal(0, AbelForward.Projection(cone, 0.5, 1));
        Assert.Equal(0, AbelForward.Slope(cone, 0.5, 2));
        Assert.Throws<ArgumentException>(() => AbelForward.Slope([1, 1], 0.5, 0.1));
    }
}
