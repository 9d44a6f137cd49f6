using BosFlow.Optics;

namespace BosFlow.Tests.Optics;

public sealed class AirIndexTests
{
    // P. E. Ciddor 1996, Appl. Opt. 35:1566, table of dry air, 633 nm, 450 ppm CO2, (n - 1) 1e8; quoted from memory.
    [Theory]
    [InlineData(20, 80e3, 21458.0)]
    [InlineData(20, 100e3, 26824.4)]
    [InlineData(20, 120e3, 32191.6)]
    [InlineData(10, 100e3, 27774.7)]
    [InlineData(30, 100e3, 25937.2)]
    public void Ciddor_DryAir_GivesPublishedValue(double celsius, double pressure, double published)
    {
        double refractivity = 1e8 * (AirIndex.Ciddor(633e-9, celsius + 273.15, pressure) - 1);
        Assert.Equal(published, refractivity, 0.2);
    }

    // State points of the same paper's comparison with measurements (632.99 nm, moist air); values computed by an independent script from the published formulas.
    [Theory]
    [InlineData(19.526, 102094.8, 1065, 510, 27393.0)]
    [InlineData(19.173, 102993.0, 641, 450, 27682.5)]
    [InlineData(19.532, 103603.2, 986, 600, 27802.0)]
    public void Ciddor_MoistAir_GivesIndependentlyComputedValue(double celsius, double pressure, double vapourPressure, double carbonDioxide, double expected)
    {
        double refractivity = 1e8 * (AirIndex.Ciddor(632.99e-9, celsius + 273.15, pressure, vapourPressure / pressure, carbonDioxide) - 1);
        Assert.Equal(expected, refractivity, 1.5);
    }

    [Fact]
    public void Ciddor_HalfHumidity_LowersIndexAsComputedIndependently()
    {
        double fraction = AirIndex.VapourMoleFraction(293.15, 101325, 0.5);
        Assert.Equal(27266.16, 1e8 * (AirIndex.Ciddor(550e-9, 293.15, 101325, fraction) - 1), 0.2);
        Assert.Equal(27308.49, 1e8 * (AirIndex.Ciddor(550e-9, 293.15, 101325) - 1), 0.2);
    }

    [Fact]
    public void VapourMoleFraction_SaturatedAt20Celsius_IsHandbookPressure()
    {
        // Saturation pressure of water at 20 degC: 2339 Pa (CRC Handbook of Chemistry and Physics, from memory).
        double pressure = AirIndex.VapourMoleFraction(293.15, 101325, 1) * 101325;
        Assert.Equal(2339, pressure, 15.0);
        Assert.True(AirIndex.VapourMoleFraction(263.15, 101325, 1) * 101325 is > 250 and < 270, "259.9 Pa over ice at -10 degC");
    }

    // K. P. Birch and M. J. Downs 1993/94 is another group's formula: both must agree within a few 1e-8.
    [Theory]
    [InlineData(20, 80e3, 0)]
    [InlineData(20, 101325, 1000)]
    [InlineData(10, 100e3, 500)]
    [InlineData(30, 110e3, 0)]
    public void Ciddor_AgainstBirchDowns_Agrees(double celsius, double pressure, double vapourPressure)
    {
        double ciddor = AirIndex.Ciddor(633e-9, celsius + 273.15, pressure, vapourPressure / pressure);
        double birchDowns = AirIndex.BirchDowns(633e-9, celsius + 273.15, pressure, vapourPressure);
        Assert.Equal(birchDowns, ciddor, 3e-8);
    }

    [Fact]
    public void IsInRange_HotOrThinAir_IsNot()
    {
        Assert.True(AirIndex.IsInRange(550e-9, 288.15, 101325));
        Assert.False(AirIndex.IsInRange(550e-9, 500, 101325));
        Assert.False(AirIndex.IsInRange(550e-9, 288.15, 50e3));
        Assert.False(AirIndex.IsInRange(200e-9, 288.15, 101325));
    }
}
