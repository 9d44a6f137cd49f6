using BosFlow.Optics;

namespace BosFlow.Tests.Optics;

public sealed class StandardAtmosphereTests
{
    // ISO 2533:1975 by geopotential altitude; K, Pa, kg/m3. 0 to 11 km recomputed by an independent script from the standard's constants, 20 and 32 km quoted from memory.
    [Theory]
    [InlineData(0, 288.150, 101325.0, 1.22500)]
    [InlineData(120, 287.370, 99891.7, 1.21095)]
    [InlineData(500, 284.900, 95460.8, 1.16727)]
    [InlineData(1000, 281.650, 89874.6, 1.11164)]
    [InlineData(2000, 275.150, 79495.2, 1.00649)]
    [InlineData(5000, 255.650, 54019.9, 0.736116)]
    [InlineData(11000, 216.650, 22632.0, 0.363918)]
    [InlineData(20000, 216.650, 5474.9, 0.088035)]
    [InlineData(32000, 228.650, 868.02, 0.013225)]
    public void At_Altitude_GivesTheStandardsTable(double metres, double temperature, double pressure, double density)
    {
        (double p, double t) = StandardAtmosphere.At(metres);

        Assert.Equal(temperature, t, 5e-4);
        Assert.Equal(pressure, p, 2e-5 * pressure);
        // The standard's gas constant is that of 1962: 1.7e-5 off today's.
        Assert.Equal(density, IdealGas.Density(p, KnownGas.Find("air")!.MolarMassKgPerMol, t), 4e-5 * density);
    }

    [Fact]
    public void At_BelowSeaLevel_IsDenserAndWarmer()
    {
        (double p, double t) = StandardAtmosphere.At(-400);

        Assert.Equal(290.75, t, 1e-9);
        Assert.InRange(p, 106000, 106300);
    }

    [Theory]
    [InlineData(-2001)]
    [InlineData(32001)]
    [InlineData(double.NaN)]
    public void At_OutsideModel_IsRefused(double metres) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.At(metres));
}
