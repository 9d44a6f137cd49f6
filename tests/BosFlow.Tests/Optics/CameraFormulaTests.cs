using BosFlow.Optics;
using MathNet.Numerics;

namespace BosFlow.Tests.Optics;

/// <summary>Sharpness, diffraction, motion and averaging against tables and worked examples; each source beside its check.</summary>
public sealed class CameraFormulaTests
{
    private const double FourDigits = 1e-4;

    /// <summary>50 mm at f/8 with a circle of confusion of 0.03 mm: hyperfocal distance 10.47 m, focused on 5 m sharp from 3.39 m to 9.53 m. Source: depth-of-field tables of photography for 35 mm film, from memory; third digit by the formula.</summary>
    [Fact]
    public void DepthOfField_OfTheNormalLens_IsThatOfTheTables()
    {
        Assert.Equal(10.467, DepthOfField.Hyperfocal(50e-3, 8, 30e-6), 1e-3);
        Assert.Equal(3.389, DepthOfField.Near(50e-3, 8, 30e-6, 5), 1e-3);
        Assert.Equal(9.527, DepthOfField.Far(50e-3, 8, 30e-6, 5), 1e-3);
    }

    /// <summary>Focused on the hyperfocal distance, sharp from half of it to infinity: elementary optics.</summary>
    [Fact]
    public void DepthOfField_AtTheHyperfocalDistance_IsHalfToInfinity()
    {
        double distance = DepthOfField.Hyperfocal(16e-3, 2.8, 3.45e-6);

        Assert.Equal(distance / 2, DepthOfField.Near(16e-3, 2.8, 3.45e-6, distance), 1e-12);
        Assert.Equal(double.PositiveInfinity, DepthOfField.Far(16e-3, 2.8, 3.45e-6, distance));
    }

    /// <summary>The limits of sharpness are where the circle of confusion reaches c: two formulas derived apart.</summary>
    [Theory]
    [InlineData(50e-3, 11, 3.45e-6, 2.0)]
    [InlineData(3e-3, 2.5, 1.55e-6, 0.5)]
    [InlineData(105e-3, 4, 5e-6, 5.0)]
    public void CircleOfConfusion_AtTheLimitsOfSharpness_IsTheAllowedOne(double focal, double number, double confusion, double focus)
    {
        double near = DepthOfField.Near(focal, number, confusion, focus);
        double far = DepthOfField.Far(focal, number, confusion, focus);

        Assert.Equal(confusion, Defocus.CircleOfConfusion(focal, number, focus, near), 1e-9 * confusion);
        if (!double.IsInfinity(far))
            Assert.Equal(confusion, Defocus.CircleOfConfusion(focal, number, focus, far), 1e-9 * confusion);
        Assert.Equal(number, Defocus.FNumberFor(focal, focus, near, confusion), 1e-9 * number);
    }

    /// <summary>f = 50 mm, f/11, lens focused on the board at 2 m: 116.55 um for the flow at 1 m, worked by hand from (f / N) f Z_D / (Z_A (Z_B - f)).</summary>
    [Fact]
    public void CircleOfConfusion_OfTheFlow_IsTheWorkedOne() =>
        Assert.Equal(116.55e-6, Defocus.CircleOfConfusion(50e-3, 11, 2, 1), FourDigits * 116.55e-6);

    /// <summary>Airy disc 21.5 um at f/16 and 550 nm (e.g. E. Hecht, Optics, chapter 10, from memory); 15.14 um at f/11 with M = 0.02564, worked by hand.</summary>
    [Fact]
    public void SpotDiameter_OfKnownLenses_IsTheAiryDisc()
    {
        Assert.Equal(21.5e-6, Diffraction.SpotDiameter(16, 550e-9, 0), 0.05e-6);
        Assert.Equal(15.14e-6, Diffraction.SpotDiameter(11, 550e-9, 0.0256410), 0.005e-6);
        Assert.Equal(11, Diffraction.FNumberFor(Diffraction.SpotDiameter(11, 550e-9, 0.1), 550e-9, 0.1), 1e-12);
    }

    /// <summary>The intensity of the Airy pattern is down to e^-2 at the radius that the share states, and 0 at the dark ring; Bessel function of a general library.</summary>
    [Fact]
    public void SpotShare_OfTheFirstDarkRing_IsWhereTheIntensityIsDownToAnEighth()
    {
        const double DarkRing = 3.8317059702;
        double angle = DotImage.SpotShare * DarkRing;
        double amplitude = 2 * SpecialFunctions.BesselJ(1, angle) / angle;

        Assert.Equal(Math.Exp(-2), amplitude * amplitude, 1e-4);
        Assert.Equal(0, SpecialFunctions.BesselJ(1, DarkRing), 1e-9);
    }

    /// <summary>A sinusoid of 1000 Hz exposed 1/2000 s and 1/8000 s, and 200 Hz for 1/1000 s: |sin(pi x) / (pi x)| by hand.</summary>
    [Theory]
    [InlineData(1000, 1 / 2000.0, 0.6366)]
    [InlineData(1000, 1 / 8000.0, 0.9745)]
    [InlineData(200, 1 / 1000.0, 0.9355)]
    public void Attenuation_OfASinusoid_IsTheWorkedOne(double hertz, double seconds, double expected) =>
        Assert.Equal(expected, ExposureMotion.Attenuation(hertz, seconds), FourDigits);

    [Theory]
    [InlineData(0.001)]
    [InlineData(0.004)]
    [InlineData(0.02)]
    public void LargestMotion_OfASinusoid_IsThatOfAPlainSearch(double seconds)
    {
        const double Hertz = 90;
        double largest = Enumerable.Range(0, 4000).Max(i => Span(i / 4000.0 / Hertz));

        Assert.Equal(largest, ExposureMotion.LargestMotion(1.7, Hertz, seconds), 2e-3);

        // Largest minus smallest place within the time.
        double Span(double start)
        {
            double[] places = [.. Enumerable.Range(0, 101).Select(k => 1.7 * Math.Sin(2 * Math.PI * Hertz * (start + (seconds * k / 100))))];
            return seconds * Hertz < 0.5 ? Math.Abs(places[^1] - places[0]) : places.Max() - places.Min();
        }
    }

    [Fact]
    public void LongestTime_OfALimit_ReachesIt()
    {
        double time = ExposureMotion.LongestTime(2, 150, 0.3)!.Value;

        Assert.Equal(0.3, ExposureMotion.LargestMotion(2, 150, time), 1e-12);
        Assert.Null(ExposureMotion.LongestTime(0.1, 150, 0.3));
    }

    /// <summary>Wavelength over window or disc at which a part is left: computed apart from sin(pi x) / (pi x) and 2 J1(pi x) / (pi x).</summary>
    [Theory]
    [InlineData(3.99, 0.90, 3.45)]
    [InlineData(5.69, 0.95, 4.93)]
    [InlineData(1.66, 0.50, 1.42)]
    public void Response_AtKnownWavelengths_IsThePart(double box, double part, double disc)
    {
        Assert.Equal(part, FrequencyResponse.Box(1 / box), 2e-3);
        Assert.Equal(part, FrequencyResponse.Disc(1 / disc), 2e-3);
    }

    [Fact]
    public void Disc_EverywhereAndBeyondItsTable_IsTheBesselFunctionOfAGeneralLibrary()
    {
        for (double x = 0.013; x < 45; x += 0.0917)
            Assert.Equal(2 * SpecialFunctions.BesselJ(1, Math.PI * x) / (Math.PI * x), FrequencyResponse.Disc(x), 1e-7);
        Assert.Equal(0, FrequencyResponse.Disc(1.2196699), 1e-6);
    }

    [Fact]
    public void DotImage_OfADisc_AddsInQuadratureAndIsUndone()
    {
        double blur = DotImage.Diameter(0, 3, 1);

        Assert.Equal(2.7, DotImage.Diameter(DotImage.DiscFor(2.7, blur)!.Value, 3, 1), 1e-12);
        Assert.Null(DotImage.DiscFor(1, 1.2));
    }
}
