using BosFlow.Density;

namespace BosFlow.Tests.Density;

public sealed class SliceViewTests
{
    private const double LensToFlow = 0.8;
    private const double LensToBackground = 1.3;
    private const double Scale = 4e-4;
    private const double FlowScale = Scale * LensToFlow / LensToBackground;
    private const double Index = 1.0003;
    private const double CentreX = 319.5;
    private const double CentreY = 239.5;

    // (axis from the optical axis, ray from the axis, slice above the optical axis), m.
    [Theory]
    [InlineData(0, 0.05, 0)]
    [InlineData(0.06, 0.04, 0)]
    [InlineData(0.06, -0.04, 0)]
    [InlineData(-0.03, 0.02, 0.09)]
    [InlineData(0.1, -0.08, -0.12)]
    public void SlopePerPixel_RayBentAtItsNearestPoint_EqualsTheExactConstruction(double axisX, double b, double above)
    {
        const double Slope = 1e-6;
        SliceView view = View(axisX, above);

        double right = view.RightPixels(b);
        double displacement = Displacement(axisX + (right * FlowScale), axisX, b, above, Slope);

        Assert.Equal(Slope, displacement * view.SlopePerPixel(b), 2e-5 * Slope);
    }

    [Fact]
    public void SlopePerPixel_AxisInTheMiddle_IsTheSameOnBothSides()
    {
        SliceView view = View(0, 0.05);

        Assert.Equal(-view.RightPixels(0.07), view.RightPixels(-0.07), 1e-9);
        Assert.Equal(view.SlopePerPixel(0.07), view.SlopePerPixel(-0.07), 1e-15);
    }

    [Fact]
    public void SlopePerPixel_OnTheOpticalAxis_IsTheParaxialFactor()
    {
        SliceView view = View(0, 0);

        Assert.Equal(0, view.RightPixels(0), 1e-12);
        Assert.Equal(-Index * Scale / (LensToBackground - LensToFlow), view.SlopePerPixel(0), 1e-15);
        Assert.Equal(1e-5 / FlowScale, view.RightPixels(1e-5), 1e-8);
    }

    private static SliceView View(double axisX, double above)
    {
        var sight = new SightGeometry(LensToFlow, LensToBackground, Scale, FlowScale, CentreX, CentreY, Index);
        // Upward axis: its right is the right of the picture.
        AxisFrame axis = AxisFrame.At(CentreX + (axisX / FlowScale), CentreY, 90);
        return new SliceView(sight, axis, above / FlowScale);
    }

    /// <summary>
    /// Displacement to the right, px, of what the pixel at flowX sees: the line of sight from the pinhole (x, up, depth) is followed to the point nearest to the axis and bent there
    /// by the gradient along its path; light runs the same path backward.
    /// </summary>
    private static double Displacement(double flowX, double axisX, double b, double above, double slope)
    {
        double[] direction = [flowX, above, LensToFlow];
        double plane = Math.Sqrt((direction[0] * direction[0]) + (direction[2] * direction[2]));
        (double sine, double cosine) = (direction[0] / plane, direction[2] / plane);
        // The foot of the perpendicular from the axis, in the plane of x and depth.
        double[] foot = [axisX + (b * cosine), LensToFlow - (b * sine)];
        Assert.Equal(0, (foot[0] * cosine) - (foot[1] * sine), 1e-9);
        double length = Math.Sqrt((plane * plane) + (above * above));
        double share = foot[1] / direction[2];
        // T = n0 times the unit vector of the ray; the integral of the gradient along the path adds slope / cos(phi) across the axis.
        double path = slope * length / plane;
        double bentX = (Index * direction[0] / length) + (path * cosine);
        double bentZ = (Index * direction[2] / length) - (path * sine);
        double reached = foot[0] + ((LensToBackground - (share * direction[2])) * bentX / bentZ);
        return -(reached - (LensToBackground * direction[0] / direction[2])) / Scale;
    }
}
