using BosFlow.Density;

namespace BosFlow.Tests.Density;

public sealed class RoundRayTracerTests
{
    private const double Width = 0.05;
    private const double Step = Width / 100;

    // Angles of rays past delta = -1.879e-4 exp(-(r / 50 mm)^2) in n0 = 1, curved and straight, computed for this project by a separate program
    // that traces the eikonal equation; no published source.
    [Theory]
    [InlineData(0.020, 2.27076e-4, 2.27041e-4)]
    [InlineData(0.0353553391, 2.856732e-4, 2.856732e-4)]
    [InlineData(0.080, 8.23799e-5, 8.23868e-5)]
    public void Turn_GaussianPlume_EqualsRaysTracedApart(double b, double curved, double straight)
    {
        var tracer = new RoundRayTracer(Gaussian(-1.879e-4), Step, 1);

        Assert.Equal(curved, tracer.Turn(b, isCurved: true), 2e-5 * curved);
        Assert.Equal(straight, tracer.Turn(b, isCurved: false), 2e-5 * straight);
    }

    [Theory]
    [InlineData(-0.02, 0.01)]
    [InlineData(-0.02, 0.015)]
    [InlineData(0.02, 0.02)]
    [InlineData(0.02, 0.09)]
    public void Turn_StrongField_EqualsBouguersFormula(double peak, double b)
    {
        const double Ambient = 1.0003;
        var tracer = new RoundRayTracer(Gaussian(peak), Step, Ambient);

        double expected = Ambient * Bouguer.Turn(b, Ambient, r => Field(peak, r), 8 * Width);

        double largest = 1.52 * Math.Abs(peak);
        Assert.Equal(expected, tracer.Turn(b, isCurved: true), 1e-4 * largest);
        Assert.True(Math.Abs(tracer.Turn(b, isCurved: false) - expected) > 5e-4 * largest, "The field is too weak to tell curved from straight rays.");
    }

    [Fact]
    public void Turn_OnTheAxisAndBeyondTheField_IsZero()
    {
        var tracer = new RoundRayTracer(Gaussian(-1e-4), Step, 1);

        Assert.Equal(0, tracer.Turn(0, isCurved: true), 1e-15);
        Assert.Equal(0, tracer.Turn(400 * Step, isCurved: true));
    }

    private static (double Value, double Slope) Field(double peak, double r)
    {
        double value = peak * Math.Exp(-r * r / (Width * Width));
        return (value, -2 * r / (Width * Width) * value);
    }

    private static double[] Gaussian(double peak) => [.. Enumerable.Range(0, 400).Select(i => Field(peak, i * Step).Value)];
}
