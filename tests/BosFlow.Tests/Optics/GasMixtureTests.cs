using BosFlow.Optics;
using BosFlow.TestKit;
using CsCheck;

namespace BosFlow.Tests.Optics;

public sealed class GasMixtureTests
{
    private static readonly Gen<GasFraction[]> AnyMixture =
        Gen.Select(Gen.Int[0, KnownGas.Names.Count - 1], Gen.Double[0.01, 1], (index, fraction) => new GasFraction(KnownGas.Names[index], fraction)).Array[1, 6];

    // Two independent ways to K of dry air: its gases' own dispersion formulas, and Ciddor 1996 for air as a whole (density 1.225458 kg/m3 at 15 degC).
    [Theory]
    [InlineData(360)]
    [InlineData(450)]
    [InlineData(550)]
    [InlineData(633)]
    [InlineData(900)]
    public void GladstoneDaleAt_DryAirByItsGases_AgreesWithCiddor(double nanometres)
    {
        double fromIndex = (AirIndex.Ciddor(nanometres * 1e-9, 288.15, 101325) - 1) / 1.225458;

        Assert.Equal(fromIndex, CombustionProducts.DryAir().GladstoneDaleAt(nanometres * 1e-9).M3PerKg, 1.5e-4 * fromIndex);
    }

    [Fact]
    public void MolarMass_DryAirByItsGases_IsThatOfTheStandard() =>
        Assert.Equal(28.9644e-3, CombustionProducts.DryAir().MolarMass, 2e-6); // ISO 2533:1975; the difference is 30 years of carbon dioxide

    [Fact]
    public void GladstoneDaleAt_HumidAir_IsCiddorsOwnRule()
    {
        // Half humidity at 20 degC: n - 1 = 27266.16e-8 at 550 nm, computed by an independent script from Ciddor 1996.
        double vapour = AirIndex.VapourMoleFraction(293.15, 101325, 0.5);
        var humid = new GasMixture([new GasFraction("air", 1 - vapour), new GasFraction("water vapour", vapour)]);
        // Density of that air: 1.1988 kg/m3 (CIPM-2007 tables, from memory).
        Assert.Equal(1.1988, IdealGas.Density(101325, humid.MolarMass, 293.15), 1e-3);

        double refractivity = humid.GladstoneDaleAt(550e-9).M3PerKg * 1.1988;

        Assert.Equal(27266.16e-8, refractivity, 7e-4 * refractivity);
    }

    [Fact]
    public void GladstoneDaleAt_AnyMixture_LiesBetweenItsGases() => AnyMixture.Sample(parts =>
    {
        GladstoneDaleValue mixture = new GasMixture(parts).GladstoneDaleAt(550e-9);
        GladstoneDaleValue[] pure = [.. parts.Select(part => GasDispersion.Coefficient(KnownGas.Find(part.Name)!, 550e-9))];

        double slack = Tolerances.DoubleKernel * mixture.M3PerKg;
        return mixture.M3PerKg >= pure.Min(value => value.M3PerKg) - slack
            && mixture.M3PerKg <= pure.Max(value => value.M3PerKg) + slack
            && mixture.RelativeSigma <= pure.Max(value => value.RelativeSigma) + Tolerances.DoubleKernel;
    });

    [Fact]
    public void GladstoneDaleAt_FractionsScaledOrReordered_IsTheSame() => AnyMixture.Sample(parts =>
    {
        var mixture = new GasMixture(parts);
        var other = new GasMixture([.. parts.Reverse().Select(part => part with { MoleFraction = part.MoleFraction * 3.7 })]);

        Assert.Equal(mixture.MolarMass, other.MolarMass, Tolerances.DoubleKernel * mixture.MolarMass);
        Assert.Equal(mixture.GladstoneDaleAt(600e-9).M3PerKg, other.GladstoneDaleAt(600e-9).M3PerKg, Tolerances.DoubleKernel);
    });

    [Fact]
    public void Constructor_UnknownGasesAndBadFractions_NamesAll()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(
            () => new GasMixture([new GasFraction("phlogiston", 0.5), new GasFraction("argon", -0.1), new GasFraction("neon", double.NaN)]));

        Assert.Equal(3, refusal.Problems.Count);
    }

    [Fact]
    public void Constructor_NothingInIt_IsRefused() =>
        Assert.Throws<ConfigurationException>(() => new GasMixture([new GasFraction("argon", 0)]));
}
