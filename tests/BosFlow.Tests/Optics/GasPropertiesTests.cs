using BosFlow.Optics;
using BosFlow.TestKit;

namespace BosFlow.Tests.Optics;

public sealed class GasPropertiesTests
{
    private static readonly GasSettings Air = new();

    public static TheoryData<GasSettings, string> Mistakes => new()
    {
        { Air with { Name = "phlogiston" }, "Gas 'phlogiston' is not in the table" },
        { Air with { Name = "exhaust" }, "The equivalence ratio of the exhaust is missing; give 0 to 1 (lean combustion in air; 0.3 is typical of a small jet engine)." },
        { Air with { Name = "exhaust", EquivalenceRatio = 1.2 }, "The equivalence ratio of the exhaust is 1.2; it must lie in 0 to 1 (lean combustion in air; 0.3 is typical of a small jet engine)." },
        { Air with { Name = "exhaust", EquivalenceRatio = 0.3, AmbientName = "argon" }, "The gas around exhaust is the air that the fuel was burnt in, not argon; remove the name of the surrounding gas." },
        { Air with { AmbientName = "ether" }, "The surrounding gas 'ether' is not in the table" },
        { Air with { Composition = [new("argon", 0.5), new("neon", 0.4)] }, "The mole fractions of the gas add to 0.9; they must add to 1 within 0.01, so correct them or add the gas that is missing." },
        { Air with { Composition = [new("argon", 0.5), new("ether", 0.5)] }, "Gas 'ether' of the composition is not in the table" },
        { Air with { Composition = [new("argon", 1.5), new("neon", -0.5)] }, "The mole fraction 1.5 of argon is outside 0 to 1; give shares that sum to 1." },
        { Air with { Name = "helium", RelativeHumidity = 0.5 }, "A relative humidity of 50 % belongs to air, but the gas around the flow is not air; remove it, or name air as the surrounding gas." },
        { Air with { RelativeHumidity = 45 }, "The relative humidity 4500 % is outside 0 to 100 %; give a value within." },
        { Air with { RelativeHumidity = 0.5, AmbientDensityKgM3 = 1.2 }, "The relative humidity needs the ambient temperature, which an ambient density replaces; give pressure and temperature in place of the density, or remove the humidity." },
        { Air with { RelativeHumidity = 0.5, AmbientTemperatureKelvin = 500 }, "The relative humidity is understood from -40 to 100 degC, and the ambient temperature is 226.85 degC; set the humidity to 0." },
        { Air with { RelativeHumidity = 1, AmbientTemperatureKelvin = 372, AmbientPressurePascal = 60e3 }, "A relative humidity of 100 % at 98.85 degC and 60000 Pa is more vapour than there is gas; check all three." },
        { Air with { AmbientPressurePascal = -1 }, "The ambient pressure -1 Pa is outside 0 to 10 MPa; give it in Pa (sea level has 101325 Pa)." },
        { Air with { AmbientTemperatureKelvin = 15 }, "The ambient temperature 15 K is outside 50 to 3000 K; give what was measured (15 degC is 288.15 K)." },
        { Air with { AmbientDensityKgM3 = double.NaN }, "The ambient density NaN kg/m3 is outside 0 to 1000 kg/m3; give it in kg/m3 (air at sea level has 1.225 kg/m3)." },
        { Air with { WavelengthSigmaMetres = -1e-9 }, "The standard uncertainty of the wavelength is -1 nm; it must lie in 0 to 200 nm (30 nm for a colour camera)." },
        { Air with { GladstoneDaleRelativeSigma = double.NaN }, "The standard uncertainty of the Gladstone-Dale coefficient is NaN %; it must lie in 0 to 50 % (leave it out where it is not known)." },
        { Air with { AmbientPressureSigmaPascal = 99999 }, "The standard uncertainty of the ambient pressure is 99999 Pa; it must lie in 0 to 50662.5 Pa (leave it out where it is not known)." },
    };

    [Fact]
    public void Of_DryAir_GivesPublishedStateAndIndex()
    {
        GasProperties air = GasProperties.Of(Air with { WavelengthMetres = 633e-9 });

        Assert.Equal(1.2250, air.AmbientDensity, 5e-4); // ISO 2533:1975, sea level
        Assert.Equal(27653.0e-8, air.AmbientIndex - 1, 2e-9); // Ciddor 1996 at 15 degC, 101325 Pa, computed by an independent script
        Assert.Equal(0.22566e-3, air.FlowGladstoneDale, 5e-4 * 0.22566e-3); // the same script
        Assert.Equal(air.FlowGladstoneDale, air.AmbientGladstoneDale);
        Assert.Equal(28.9644e-3, air.FlowMolarMass); // ISO 2533:1975
        Assert.Equal("dry air", air.Description);
        Assert.Empty(air.Notes);
    }

    [Fact]
    public void Of_HumidAir_UsesCiddorWithVapour()
    {
        GasProperties humid = GasProperties.Of(Air with { RelativeHumidity = 0.5, AmbientTemperatureKelvin = 293.15 });

        Assert.Equal(27266.16e-8, humid.AmbientIndex - 1, 2e-9); // computed by an independent script from Ciddor 1996
        Assert.Equal(1.1988, humid.AmbientDensity, 1e-3); // CIPM-2007 tables, from memory
        // The rule n - 1 = K rho of flow and surroundings must meet the full equations where the flow ends.
        Assert.Equal(humid.AmbientIndex - 1, humid.AmbientGladstoneDale * humid.AmbientDensity, 1e-3 * (humid.AmbientIndex - 1));
    }

    [Fact]
    public void Of_AirOutsideCiddorsRange_UsesGladstoneDale()
    {
        (double pressure, double temperature) = StandardAtmosphere.At(5000);
        GasProperties thin = GasProperties.Of(Air with { AmbientPressurePascal = pressure, AmbientTemperatureKelvin = temperature });

        Assert.Equal(1 + (thin.AmbientGladstoneDale * thin.AmbientDensity), thin.AmbientIndex);
    }

    [Fact]
    public void Of_Exhaust_HasItsOwnCoefficientInAir()
    {
        GasProperties exhaust = GasProperties.Of(Air with { Name = "exhaust", EquivalenceRatio = 0.2935, WavelengthMetres = 589.3e-9, RelativeHumidity = 0.4 });
        GasProperties dry = GasProperties.Of(Air with { Name = "exhaust", EquivalenceRatio = 0.2935, WavelengthMetres = 589.3e-9 });
        GasProperties air = GasProperties.Of(Air with { WavelengthMetres = 589.3e-9, RelativeHumidity = 0.4 });

        Assert.Equal(0.23088e-3, dry.FlowGladstoneDale, 1e-3 * 0.23088e-3); // fuel-air ratio 0.020, computed by an independent script
        Assert.True(exhaust.FlowGladstoneDale > dry.FlowGladstoneDale && exhaust.FlowMolarMass < dry.FlowMolarMass, "the vapour of the air comes out again");
        Assert.Equal(air.AmbientIndex, exhaust.AmbientIndex);
        Assert.Equal(air.AmbientGladstoneDale, exhaust.AmbientGladstoneDale);
        Assert.Equal("exhaust of a kerosene-like fuel at equivalence ratio 0.2935 (fuel-air ratio 0.02), in air of 40 % relative humidity", exhaust.Description);
    }

    [Fact]
    public void Of_ExhaustWithoutFuel_IsTheAirAround()
    {
        GasProperties exhaust = GasProperties.Of(Air with { Name = "Exhaust", EquivalenceRatio = 0, RelativeHumidity = 0.7 });

        Assert.Equal(exhaust.AmbientGladstoneDale, exhaust.FlowGladstoneDale, 6e-4 * exhaust.FlowGladstoneDale); // table of air against its gases
        Assert.Equal(exhaust.AmbientMolarMass!.Value, exhaust.FlowMolarMass!.Value, 2e-6);
    }

    [Fact]
    public void Of_HeliumInAir_KnowsBothGases()
    {
        GasProperties jet = GasProperties.Of(Air with { Name = "helium", AmbientName = "air" });

        Assert.Equal(0.196e-3, jet.FlowGladstoneDale);
        Assert.Equal(4.0026e-3, jet.FlowMolarMass);
        Assert.Equal(GasProperties.Of(Air).AmbientIndex, jet.AmbientIndex);
        Assert.Equal(1.2250, jet.AmbientDensity, 5e-4);
        Assert.Equal("helium in dry air", jet.Description);
    }

    [Fact]
    public void Of_CompositionThatMissesOneSlightly_IsScaledAndSaysSo()
    {
        GasProperties mixture = GasProperties.Of(Air with { Composition = [new("nitrogen", 0.78), new("oxygen", 0.21), new("argon", 0.005)] });

        Assert.Equal("mixture of 0.7839 nitrogen, 0.2111 oxygen, 0.005 argon by mole fractions", mixture.Description);
        Assert.Equal("The mole fractions of the gas add to 0.995; they were scaled to add to 1.", Assert.Single(mixture.Notes));
    }

    [Fact]
    public void Of_AirAtDefault_TheWavelengthDominatesTheUncertaintyOfK()
    {
        GasProperties air = GasProperties.Of(Air);

        // K of air at 500 and 600 nm, cm3/g, computed by an independent script from Ciddor 1996: the slope times 30 nm.
        double wavelength = (0.22765 - 0.22602) / 100 * 30 / 0.22672;
        Assert.Equal(Math.Sqrt((wavelength * wavelength) + (0.0005 * 0.0005)), air.FlowGladstoneDaleRelativeSigma, 2e-4);
        Assert.Equal("table for air of Merzkirch 1987 (0.05 %); effective wavelength 550 nm known to 30 nm (0.21 %)", air.FlowGladstoneDaleSource);
    }

    [Fact]
    public void Of_LaserLine_LeavesTheTablesOwnUncertainty() =>
        Assert.Equal(0.0005, GasProperties.Of(Air with { WavelengthSigmaMetres = 0 }).FlowGladstoneDaleRelativeSigma, 1e-12);

    [Theory]
    [InlineData(356.2)]
    [InlineData(912.5)]
    public void Of_WavelengthAtTheEndOfTheTable_StillHasAnUncertainty(double nanometres) =>
        Assert.InRange(GasProperties.Of(Air with { WavelengthMetres = nanometres * 1e-9 }).FlowGladstoneDaleRelativeSigma, 0.0006, 0.01);

    [Fact]
    public void Of_GivenCoefficient_HasTheUsersUncertaintyOrAnAssumedOne()
    {
        GasSettings given = Air with { GladstoneDaleM3PerKg = 2.3e-4 };

        Assert.Equal(0.004, GasProperties.Of(given with { GladstoneDaleRelativeSigma = 0.004 }).FlowGladstoneDaleRelativeSigma);
        Assert.Equal(0.01, GasProperties.Of(given).FlowGladstoneDaleRelativeSigma);
        Assert.Contains("1 % assumed", GasProperties.Of(given).FlowGladstoneDaleSource, StringComparison.Ordinal);
        Assert.Equal(0.004, GasProperties.Of(Air with { GladstoneDaleRelativeSigma = 0.004 }).FlowGladstoneDaleRelativeSigma);
    }

    [Fact]
    public void Of_StateWithUncertainties_PropagatesToTheDensity()
    {
        GasProperties both = GasProperties.Of(Air with { AmbientPressureSigmaPascal = 1013.25, AmbientTemperatureSigmaKelvin = 2.8815 });
        GasProperties one = GasProperties.Of(Air with { AmbientTemperatureSigmaKelvin = 2.8815 });

        // d rho / rho = dp / p - dT / T: 1 % of each, independent.
        Assert.Equal(0.01 * Math.Sqrt(2) * both.AmbientDensity, both.AmbientDensitySigma!.Value, 1e-9);
        Assert.Equal(0.01 * one.AmbientDensity, one.AmbientDensitySigma!.Value, 1e-9);
        Assert.Null(GasProperties.Of(Air).AmbientDensitySigma);
    }

    [Fact]
    public void Of_DensityGiven_FindsTheTemperatureOfTheIdealGas()
    {
        GasProperties given = GasProperties.Of(Air with { AmbientDensityKgM3 = 1.225, AmbientDensitySigmaKgM3 = 0.01225, AmbientTemperatureKelvin = 999 });

        Assert.Equal(288.15, given.AmbientTemperature!.Value, 0.01); // ISO 2533:1975, sea level
        Assert.Equal(2.8815, given.AmbientTemperatureSigma!.Value, 1e-3);
        Assert.Equal(0.01225, given.AmbientDensitySigma);
    }

    [Fact]
    public void Of_UnknownGasWithCoefficientAndDensity_HasNoMolarMass()
    {
        GasProperties unknown = GasProperties.Of(Air with { Name = "kiln gas", GladstoneDaleM3PerKg = 2.3e-4, AmbientDensityKgM3 = 0.6 });

        Assert.Null(unknown.FlowMolarMass);
        Assert.Null(unknown.AmbientTemperature);
        Assert.Equal(1 + (2.3e-4 * 0.6), unknown.AmbientIndex, Tolerances.DoubleKernel);
        Assert.Null(GasProperties.Of(Air with { Name = "kiln gas", GladstoneDaleM3PerKg = 2.3e-4, AmbientName = "air" }).FlowMolarMass);
    }

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Of_OneMistake_SaysWhatAndHowToMendIt(GasSettings settings, string start)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => GasProperties.Of(settings));

        Assert.StartsWith(start, refusal.Problems[0], StringComparison.Ordinal);
        Assert.All(refusal.Problems, sentence => Assert.EndsWith(".", sentence, StringComparison.Ordinal));
    }
}
