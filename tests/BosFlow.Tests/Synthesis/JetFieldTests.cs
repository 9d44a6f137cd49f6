using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class JetFieldTests
{
    private const double PeakExcess = -1.879e-4; // hot air near 900 K at sea level

    // A camera so far away that its rays are parallel within 1e-5: the published thin-ray formula must hold.
    private static readonly ViewGeometry FarView = new(2000, 2, 0.5e-3, 319.5, 239.5, 1.000277);
    private static readonly ViewGeometry NearView = new(1.0, 1.0, 0.2e-3, 319.5, 239.5, 1.000277);

    // Gaussian column, a = 50 mm: eps(y) = -(2 sqrt(pi) delta0 / n0) (y / a) exp(-y^2 / a^2); full ray traces of an independent script, rad.
    [Theory]
    [InlineData(20e-3, 2.27041e-4, 2.27076e-4)]
    [InlineData(35.355339e-3, 2.856732e-4, 2.856732e-4)]
    [InlineData(80e-3, 8.23868e-5, 8.23799e-5)]
    public void TracedRay_GaussianColumn_GivesIndependentlyTracedDeflection(double impact, double thin, double traced)
    {
        HotJet column = Column(FarView, 50e-3);
        // A ray parallel to the optical axis has no pixel; a far pinhole's ray crosses the flow plane at the impact distance.
        double pixel = FarView.CentreX + (impact / FarView.FlowMetresPerPixel);
        TracedRay ray = new RayTracer(FarView, new JetIndexField(column)).Trace(pixel, FarView.CentreY);
        double deflection = ray.IndexGradientPathX / FarView.AmbientIndex;
        Assert.True(deflection > 0, "light bends away from the hot axis, towards denser gas");
        // The independent script had n0 = 1 and started from a parallel ray: 3e-4 of the value.
        Assert.Equal(traced, deflection, 4e-4 * traced);
        Assert.Equal(thin, new ThinJetField(FarView, column).At(pixel, FarView.CentreY).IndexGradientPathX, 3e-4 * thin);
    }

    [Fact]
    public void ThinJet_Peak_IsIndependentOfWidth()
    {
        // max eps = sqrt(2 pi) e^-1/2 |delta0| = 1.52035 |delta0| at y = a / sqrt 2.
        foreach (double a in (double[])[5e-3, 50e-3])
        {
            double pixel = FarView.CentreX + (a / Math.Sqrt(2) / FarView.FlowMetresPerPixel);
            double gradient = new ThinJetField(FarView, Column(FarView, a)).At(pixel, FarView.CentreY).IndexGradientPathX;
            Assert.Equal(1.52035 * 1.879e-4, gradient, 1e-8);
        }
    }

    [Fact]
    public void TracedJet_HotPlume_DotsMoveInwardToTheAxis()
    {
        var field = new TracedField(NearView, new JetIndexField(Column(NearView, 8e-3)));
        Assert.True(field.At(NearView.CentreX + 60, NearView.CentreY).U < -0.1);
        Assert.True(field.At(NearView.CentreX - 60, NearView.CentreY).U > 0.1);
        Assert.Equal(0, field.At(NearView.CentreX, NearView.CentreY).U, 1e-9);
        Assert.Equal(0, field.At(NearView.CentreX + 500, NearView.CentreY).U, 1e-9);
    }

    [Fact]
    public void TracedJet_ColdJet_DotsMoveOutward()
    {
        HotJet cold = Column(NearView, 8e-3) with { IndexExcess = 1e-4 };
        Assert.True(new TracedField(NearView, new JetIndexField(cold)).At(NearView.CentreX + 60, NearView.CentreY).U > 0.1);
    }

    [Fact]
    public void TracedJet_AgainstThinTheory_AgreesWithinAFewPercentOfThePeak()
    {
        HotJet jet = Jet(NearView);
        var thin = new ThinJetField(NearView, jet);
        var traced = new TracedField(NearView, new JetIndexField(jet));
        double peak = 0, largest = 0;
        for (double y = 20; y < 470; y += 45)
        {
            for (double x = 20; x < 630; x += 30)
            {
                FlowSample a = thin.At(x, y);
                FlowSample b = traced.At(x, y);
                peak = Math.Max(peak, Math.Abs(b.U));
                largest = Math.Max(largest, Math.Max(Math.Abs(a.U - b.U), Math.Abs(a.V - b.V)));
            }
        }

        Assert.True(peak > 0.3);
        // Obliquity, the shift of the line of sight and the width of the flow along z: some percent for a camera 1 m away.
        Assert.True(largest < 0.03 * peak, $"{largest} of {peak}");
        Assert.True(largest > 1e-5 * peak, "the two are computed apart and cannot agree to the last digit");
    }

    [Fact]
    public void TracedJet_AnyPlace_RayOfTheDisplacedPixelMeetsTheDot()
    {
        HotJet jet = Jet(NearView);
        FlowSample sample = new TracedField(NearView, new JetIndexField(jet)).At(280, 300);
        TracedRay ray = new RayTracer(NearView, new JetIndexField(jet)).Trace(280 + sample.U, 300 + sample.V);
        (double dotX, double dotY) = NearView.OnBackground(280, 300);
        Assert.Equal(dotX, ray.X, 1e-12);
        Assert.Equal(dotY, ray.Y, 1e-12);
    }

    [Fact]
    public void Trace_HalvedStep_ChangesNothingThatMatters()
    {
        var tracer = new RayTracer(NearView, new JetIndexField(Jet(NearView)));
        TracedRay coarse = tracer.Trace(380, 200);
        TracedRay fine = tracer.Trace(380, 200, 512);
        Assert.Equal(fine.IndexGradientPathX, coarse.IndexGradientPathX, 1e-6 * Math.Abs(fine.IndexGradientPathX));
        Assert.Equal(fine.X, coarse.X, 1e-12);
    }

    [Fact]
    public void Trace_PathIntegral_EqualsQuadratureOfTheGradientAlongTheRay()
    {
        // Independent of the identity dT = grad n ds that the tracer uses: Simpson's rule over a finite-difference gradient along the straight line of sight.
        HotJet jet = Jet(NearView) with { IndexExcess = -1e-7 };
        const double X = 370, Y = 200;
        (double backX, double backY) = NearView.OnBackground(X, Y);
        double Index(double x, double y, double z)
        {
            (double s, double q) = jet.Split(x, y);
            double a = jet.HalfWidthAt(s);
            return jet.IndexExcessAt(s) * Math.Exp(-((q * q) + ((z - jet.NozzleZ) * (z - jet.NozzleZ))) / (a * a));
        }

        const int Count = 2000;
        double sum = 0;
        for (int i = 0; i <= Count; i++)
        {
            double z = 0.9 + (0.2 * i / Count);
            double x = backX * z / 2;
            double y = backY * z / 2;
            double gradient = (Index(x + 1e-6, y, z) - Index(x - 1e-6, y, z)) / 2e-6;
            sum += (i is 0 or Count ? 1 : i % 2 == 0 ? 2 : 4) * gradient;
        }

        double stretch = Math.Sqrt(1 + ((backX * backX) + (backY * backY)) / 4);
        double expected = sum * 0.2 / (3 * Count) * stretch;
        Assert.Equal(expected, new RayTracer(NearView, new JetIndexField(jet)).Trace(X, Y).IndexGradientPathX, 1e-5 * Math.Abs(expected));
    }

    [Fact]
    public void TracedJet_AbsurdStrength_IsRefused()
    {
        var field = new TracedField(NearView, new JetIndexField(Column(NearView, 1e-3) with { IndexExcess = 0.5 }));
        Assert.Throws<ConfigurationException>(() => field.At(NearView.CentreX + 5, NearView.CentreY));
    }

    private static HotJet Column(ViewGeometry view, double halfWidth) => new(0, 0, view.LensToFlowMetres, 90, halfWidth, 0, PeakExcess);

    private static HotJet Jet(ViewGeometry view) => new(0.002, 0.03, view.LensToFlowMetres, 75, 6e-3, 0.12, PeakExcess);
}
