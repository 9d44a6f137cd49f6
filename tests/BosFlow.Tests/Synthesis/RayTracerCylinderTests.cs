using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

/// <summary>The ray tracer against an exact formula of geometrical optics that it has no part of.</summary>
public sealed class RayTracerCylinderTests
{
    private const double Radius = 0.05;
    private const double RelativeExcess = -1.879e-4;
    private static readonly ViewGeometry FarView = new(2000, 2, 0.5e-3, 319.5, 239.5, 1);

    // Homogeneous cylinder, impact b, relative index m: deviation towards the axis 2 [asin(b / a) - asin(b / (a m))] by Snell's law at both surfaces; rad,
    // negative = away from the axis; evaluated by an independent script.
    [Theory]
    [InlineData(0.3, -1.182069e-4)]
    [InlineData(0.6, -2.819179e-4)]
    public void Trace_HomogeneousCylinder_DeviatesAsSnellsLaw(double impact, double towardsAxis)
    {
        double m = 1 + RelativeExcess;
        Assert.Equal(towardsAxis, 2 * (Math.Asin(impact) - Math.Asin(impact / m)), 1e-10);
        double pixel = FarView.CentreX + (impact * Radius / FarView.FlowMetresPerPixel);
        TracedRay ray = new RayTracer(FarView, new SoftCylinder()).Trace(pixel, FarView.CentreY, 20_000);
        // The edge is 1 % of the radius soft, which costs its square or so.
        Assert.Equal(-towardsAxis, ray.IndexGradientPathX, 1e-3 * Math.Abs(towardsAxis));
    }

    /// <summary>An upright cylinder of hot gas whose edge is tanh with a scale of 1 % of the radius.</summary>
    private sealed class SoftCylinder : IIndexField
    {
        private const double Edge = 0.01 * Radius;

        public IndexSample At(double x, double y, double z)
        {
            double dz = z - FarView.LensToFlowMetres;
            double r = Math.Sqrt((x * x) + (dz * dz));
            double wave = Math.Tanh((Radius - r) / Edge);
            double slope = -RelativeExcess / 2 * (1 - (wave * wave)) / Edge;
            return new IndexSample(RelativeExcess * (1 + wave) / 2, slope * x / r, 0, slope * dz / r);
        }

        public FlowStretch StretchAt(double flowX, double flowY) =>
            new(FarView.LensToFlowMetres - (1.3 * Radius), FarView.LensToFlowMetres + (1.3 * Radius), HasFaces: false);
    }
}
