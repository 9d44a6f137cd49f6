using BosFlow.Optics;

namespace BosFlow.Tests.Optics;

public sealed class GasDispersionTests
{
    // (n - 1) at 632.8 to 633 nm, 101325 Pa, 0 degC (oxygen 20 degC), computed by an independent script from the formulas of Peck and Khanna 1966,
    // Zhang, Lu and Wang 2008, Peck and Fisher 1964, and Old, Gentili and Peck 1971.
    [Theory]
    [InlineData("nitrogen", 2.9774e-4)]
    [InlineData("oxygen", 2.5132e-4)]
    [InlineData("argon", 2.8117e-4)]
    [InlineData("carbon dioxide", 4.4794e-4)]
    public void Refractivity_HeliumNeonLine_IsIndependentlyComputedValue(string gas, double published) =>
        Assert.Equal(published, GasDispersion.Refractivity(gas, 633e-9)!.Value, 1e-8);

    // Indices of gases at 0 degC, 101325 Pa for the sodium line, (n - 1) 1e6: Kaye and Laby, Tables of Physical and Chemical Constants (from memory,
    // hydrogen after Peck and Huang 1977). Densities at that state from CRC Handbook of Chemistry and Physics, kg/m3 (from memory).
    [Theory]
    [InlineData("nitrogen", 298, 1.2504)]
    [InlineData("oxygen", 271, 1.4290)]
    [InlineData("argon", 282, 1.7837)]
    [InlineData("carbon dioxide", 449, 1.9769)]
    [InlineData("helium", 35, 0.1785)]
    [InlineData("neon", 67, 0.8999)]
    [InlineData("krypton", 427, 3.749)]
    [InlineData("xenon", 702, 5.894)]
    [InlineData("methane", 444, 0.7175)]
    [InlineData("hydrogen", 139, 0.0899)]
    [InlineData("nitric oxide", 297, 1.3402)]
    public void Coefficient_SodiumLine_AgreesWithHandbook(string gas, double refractivity, double density)
    {
        GladstoneDaleValue value = GasDispersion.Coefficient(KnownGas.Find(gas)!, 589.3e-9);

        double handbook = 1e-6 * refractivity / density;
        // The handbook's last digit is up to 1.5 % of its value.
        Assert.Equal(handbook, value.M3PerKg, handbook * Math.Max(0.01, 0.5 / refractivity));
        Assert.Equal(handbook, KnownGas.Find(gas)!.GladstoneDaleM3PerKg, 0.02 * handbook);
    }

    [Fact]
    public void Coefficient_WaterVapour_AgreesWithIndependentValueAndTable()
    {
        GladstoneDaleValue value = GasDispersion.Coefficient(KnownGas.Find("water vapour")!, 633e-9);

        Assert.Equal(0.3127e-3, value.M3PerKg, 0.0001e-3); // Ciddor 1996 at 20 degC and 1333 Pa, computed by an independent script
        Assert.Equal(0.310e-3, value.M3PerKg, 0.0035e-3); // table of Merzkirch 1987, from memory
    }

    [Theory]
    [InlineData("nitrogen")]
    [InlineData("oxygen")]
    [InlineData("argon")]
    [InlineData("carbon dioxide")]
    [InlineData("water vapour")]
    [InlineData("air")]
    public void Coefficient_LongerWave_IsSmaller(string gas)
    {
        KnownGas known = KnownGas.Find(gas)!;
        double[] values = [.. Enumerable.Range(0, 20).Select(i => GasDispersion.Coefficient(known, (360 + (i * 29)) * 1e-9).M3PerKg)];

        // Far from any resonance the index of a gas falls with the wavelength, over the visible by 1 to 5 %.
        Assert.All(values.Zip(values.Skip(1)), pair => Assert.True(pair.First > pair.Second));
        Assert.InRange(values[0] / values[^1], 1.01, 1.06);
    }

    [Fact]
    public void Coefficient_EveryGasOfTheTable_HasUncertaintyAndSource()
    {
        Assert.All(KnownGas.Names, name =>
        {
            GladstoneDaleValue value = GasDispersion.Coefficient(KnownGas.Find(name)!, 550e-9);
            Assert.InRange(value.RelativeSigma, 0.0005, 0.04);
            Assert.Matches("19|20", value.Source);
        });
    }

    [Theory]
    [InlineData("argon", 0.55)]
    [InlineData("water vapour", 2000e-9)]
    [InlineData("nitrogen", double.NaN)]
    public void Coefficient_OutsideFormula_IsRefused(string gas, double metres)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => GasDispersion.Coefficient(KnownGas.Find(gas)!, metres));
        Assert.Contains("350 nm to 1690 nm", refusal.Message, StringComparison.Ordinal);
    }
}
