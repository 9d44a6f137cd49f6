using BosFlow.Optics;

namespace BosFlow.Tests.Optics;

public sealed class GladstoneDaleTests
{
    // W. Merzkirch, Flow Visualization, 2nd ed. 1987, table for air at 288 K (from Landolt-Boernstein), cm3/g; quoted from memory.
    [Theory]
    [InlineData(0.9125, 0.2239)]
    [InlineData(0.7034, 0.2250)]
    [InlineData(0.6440, 0.2255)]
    [InlineData(0.6074, 0.2259)]
    [InlineData(0.5677, 0.2264)]
    [InlineData(0.5097, 0.2274)]
    [InlineData(0.4801, 0.2281)]
    [InlineData(0.4472, 0.2290)]
    [InlineData(0.4079, 0.2304)]
    [InlineData(0.3808, 0.2316)]
    [InlineData(0.3562, 0.2330)]
    public void Air_TableWavelength_GivesTableValueAndAgreesWithCiddor(double micrometres, double published)
    {
        double coefficient = GladstoneDale.Air(micrometres * 1e-6);
        Assert.Equal(published * 1e-3, coefficient, 1e-12);

        // Independent: (n - 1) / rho of Ciddor 1996 for dry air, 15 degC, 101325 Pa, 450 ppm CO2, whose density is 1.225458 kg/m3.
        double fromIndex = (AirIndex.Ciddor(micrometres * 1e-6, 288.15, 101325) - 1) / 1.225458;
        Assert.Equal(fromIndex, coefficient, 0.0005 * fromIndex);
    }

    [Theory]
    [InlineData(500)]
    [InlineData(532)]
    [InlineData(550)]
    [InlineData(589.3)]
    [InlineData(633)]
    [InlineData(800)]
    public void Air_BetweenEntries_AgreesWithCiddor(double nanometres)
    {
        double fromIndex = (AirIndex.Ciddor(nanometres * 1e-9, 288.15, 101325) - 1) / 1.225458;
        Assert.Equal(fromIndex, GladstoneDale.Air(nanometres * 1e-9), 0.0005 * fromIndex);
    }

    // n - 1 from the dispersion formulas of the papers, density from the ideal gas at the formula's state (0 degC or 20 degC, 101325 Pa).
    [Theory]
    [InlineData("nitrogen", 28.0134e-3, 273.15)]
    [InlineData("oxygen", 31.998e-3, 293.15)]
    [InlineData("argon", 39.948e-3, 273.15)]
    [InlineData("carbon dioxide", 44.0095e-3, 273.15)]
    public void For_PureGas_AgreesWithDispersionFormula(string name, double molarMass, double temperature)
    {
        double s2 = 1 / (0.5893 * 0.5893);
        double refractivity = name switch
        {
            "nitrogen" => 6.8552e-5 + (3.243157e-2 / (144 - s2)),          // Peck and Khanna 1966
            "oxygen" => 1.181494e-4 + (9.708931e-3 / (75.4 - s2)),         // Zhang, Lu and Wang 2008
            "argon" => 6.7867e-5 + (3.0182943e-2 / (144 - s2)),            // Peck and Fisher 1964
            _ => (1.54489e-6 / (0.0584738 - s2)) + (0.083091927 / (210.9241 - s2)) + (0.0028764190 / (60.122959 - s2)), // Old, Gentili and Peck 1971
        };
        double density = 101325 * molarMass / (8.31446261815324 * temperature);
        double published = GladstoneDale.For(new GasSettings { Name = name });
        Assert.Equal(refractivity / density, published, 0.015 * published);
    }

    [Fact]
    public void For_Helium_AgreesWithHandbook()
    {
        // Weber, Handbook of Optical Materials, 2003: n - 1 = 3.490e-5 at 546 nm, 273 K.
        double density = 101325 * 4.0026e-3 / (8.31446261815324 * 273.15);
        Assert.Equal(3.490e-5 / density, GladstoneDale.For(new GasSettings { Name = "Helium" }), 0.002e-3);
    }

    [Fact]
    public void For_GivenCoefficient_WinsOverTable() =>
        Assert.Equal(2.3e-4, GladstoneDale.For(new GasSettings { GladstoneDaleM3PerKg = 2.3e-4 }));

    [Theory]
    [InlineData(0.226, "0.226 m3/kg")]
    [InlineData(0.0, "0 m3/kg")]
    [InlineData(double.NaN, "NaN")]
    public void For_CoefficientInWrongUnit_IsRefused(double given, string quoted)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => GladstoneDale.For(new GasSettings { GladstoneDaleM3PerKg = given }));
        Assert.Contains(quoted, refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.55)]
    [InlineData(1550e-9)]
    [InlineData(double.NaN)]
    public void Air_OutsideTable_IsRefused(double metres)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => GladstoneDale.Air(metres));
        Assert.Contains("356.2 nm to 912.5 nm", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void For_UnknownGas_NamesTheKnownOnes()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => GladstoneDale.For(new GasSettings { Name = "phlogiston" }));
        Assert.Contains("'phlogiston'", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("argon", refusal.Message, StringComparison.Ordinal);
    }
}
