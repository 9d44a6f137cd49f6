using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class SceneGasTests
{
    // Molar gas constant, J/(mol K), exact since 2019 (SI brochure, 9th ed.).
    private const double GasConstant = 8.31446261815324;

    [Fact]
    public void Of_Air_IsOneGasWithTheIdealGasLaw()
    {
        SceneGas air = SceneGas.Of(new GasSettings { AmbientTemperatureKelvin = 300 });
        Assert.True(air.IsOneGas);
        double excess = air.IndexExcess(600);
        Assert.Equal(air.AmbientDensityKgM3 / 2, air.DensityAt(excess, 600), 1e-12);
        Assert.Equal(600, air.TemperatureAt(excess, 600), 1e-9);
    }

    [Fact]
    public void Of_AmbientDensityAlone_FollowsItsOwnTemperature()
    {
        // 0.277 kg/m3 at 12950 Pa is air at p M / (R rho) = 162.9 K.
        SceneGas air = SceneGas.Of(new GasSettings { AmbientDensityKgM3 = 0.277, AmbientPressurePascal = 12950 });
        Assert.Equal(12950 * 28.9644e-3 / (GasConstant * 0.277), air.AmbientTemperatureKelvin, 0.05);
    }

    [Fact]
    public void Helium_InAir_EndsAtThePureGases()
    {
        SceneGas gas = SceneGas.Of(new GasSettings { Name = "helium", AmbientName = "air", AmbientTemperatureKelvin = 300 });
        Assert.False(gas.IsOneGas);
        double excess = gas.IndexExcess(300);
        Assert.True(excess < 0, "helium bends light less than air");
        // Ideal gas, molar mass of helium 4.0026e-3 kg/mol (IUPAC).
        Assert.Equal(101325 * 4.0026e-3 / (GasConstant * 300), gas.DensityAt(excess, 300), 1e-4);
        Assert.Equal(300, gas.TemperatureAt(excess, 300), 1e-9);
        Assert.Equal(gas.AmbientDensityKgM3, gas.DensityAt(0, 300), 1e-12);
    }

    [Theory]
    [InlineData(0.25)]
    [InlineData(0.8)]
    public void TwoGases_Mixed_GiveBackTheMixtureTheyWereMadeOf(double share)
    {
        // Amount of substance p / (R T) of a mixture of both gases, their refractivities added: independent of the closed form that undoes it.
        SceneGas gas = SceneGas.Of(new GasSettings { Name = "carbon dioxide", AmbientName = "air", AmbientTemperatureKelvin = 300 });
        const double Source = 900;
        double temperature = 300 + (share * (Source - 300));
        double airMass = gas.AmbientDensityKgM3 * GasConstant * 300 / 101325;
        double amount = 101325 / (GasConstant * temperature);
        double densityOfAir = amount * (1 - share) * airMass;
        double densityOfFlow = amount * share * airMass * gas.MolarMassRatio;
        double refractivity = (densityOfAir * gas.AmbientGladstoneDaleM3PerKg) + (densityOfFlow * gas.GladstoneDaleM3PerKg);
        double excess = refractivity - (gas.AmbientDensityKgM3 * gas.AmbientGladstoneDaleM3PerKg);
        Assert.Equal(densityOfAir + densityOfFlow, gas.DensityAt(excess, Source), 1e-9);
        Assert.Equal(temperature, gas.TemperatureAt(excess, Source), 1e-6);
    }

    [Fact]
    public void TwoGases_ShockOrGradient_AreRefused()
    {
        SceneRecipe recipe = PlumeScenes.Laboratory(600, 1, 1, 5) with { Gas = new GasSettings { Name = "helium", AmbientName = "air" } };
        foreach (FlowRecipe flow in (FlowRecipe[])[new FlowRecipe.SlabGradient(1, 0, 0.1), new FlowRecipe.Shock(2, 10, 0, 500, 190, 5e-3, 0.01)])
        {
            ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => new SyntheticScene(recipe with { Flow = flow }, CancellationToken.None));
            Assert.Contains("are of one gas", refusal.Message, StringComparison.Ordinal);
        }
    }
}
