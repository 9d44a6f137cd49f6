using BosFlow.Optics;
using BosFlow.TestKit;
using CsCheck;

namespace BosFlow.Tests.Optics;

public sealed class CombustionProductsTests
{
    private const double SodiumLine = 589.3e-9;

    // CH1.92 burnt in air, K in cm3/g at 589 nm, computed by an independent script from the same published dispersion formulas, but with ideal
    // densities (no compressibility), which shifts it by 0.05 %.
    [Theory]
    [InlineData(0, 0.22627)]
    [InlineData(0.012, 0.22906)]
    [InlineData(0.020, 0.23088)]
    [InlineData(0.030, 0.23311)]
    public void At_FuelAirRatio_GivesIndependentlyComputedCoefficient(double fuelAirRatio, double expected)
    {
        GasMixture products = CombustionProducts.At(fuelAirRatio / CombustionProducts.StoichiometricFuelAirRatio, 0);

        Assert.Equal(expected * 1e-3, products.GladstoneDaleAt(SodiumLine).M3PerKg, 1e-3 * expected * 1e-3);
        Assert.InRange(products.MolarMass, 28.964e-3, 28.970e-3); // 28.966 to 28.969 of the same script
    }

    [Fact]
    public void StoichiometricFuelAirRatio_KeroseneLikeFuel_IsThatOfTheTrade() =>
        Assert.Equal(0.068, CombustionProducts.StoichiometricFuelAirRatio, 5e-4); // jet fuel in textbooks of propulsion, from memory

    [Fact]
    public void At_AllOxygenUsed_LeavesNone()
    {
        IReadOnlyList<GasFraction> parts = CombustionProducts.At(1, 0).Fractions;

        // CH1.92 + 1.48 (O2 + 3.774 N2 and argon): 1 CO2 and 0.96 H2O in 7.55 moles, by hand.
        Assert.DoesNotContain(parts, part => part.Name == "oxygen" && part.MoleFraction > 1e-12);
        Assert.Equal(0.1330, parts.Single(part => part.Name == "carbon dioxide").MoleFraction, 5e-4);
        Assert.Equal(0.1274, parts.Single(part => part.Name == "water vapour").MoleFraction, 5e-4);
    }

    [Fact]
    public void At_AnyRatioAndHumidity_ConservesAtoms() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 0.1]).Sample((ratio, vapour) =>
        {
            Dictionary<string, double> parts = CombustionProducts.At(ratio, vapour).Fractions.ToDictionary(part => part.Name, part => part.MoleFraction);
            double Moles(string gas) => parts.GetValueOrDefault(gas) / parts["argon"] * 0.00934;

            // For each mole of dry air: carbon from the fuel makes CO2; oxygen atoms of air and vapour are all found again.
            double fuel = Moles("carbon dioxide") - 0.00036;
            double oxygenAtoms = (2 * Moles("oxygen")) + (2 * Moles("carbon dioxide")) + Moles("water vapour");
            double hydrogenAtoms = 2 * Moles("water vapour");
            double vapourMoles = vapour / (1 - vapour);
            Assert.Equal((2 * 0.20946) + (2 * 0.00036) + vapourMoles, oxygenAtoms, Tolerances.DoubleKernel);
            Assert.Equal((2 * vapourMoles) + (CombustionProducts.HydrogenPerCarbon * fuel), hydrogenAtoms, Tolerances.DoubleKernel);
        });

    [Theory]
    [InlineData(-0.1, 0)]
    [InlineData(1.1, 0)]
    [InlineData(double.NaN, 0)]
    [InlineData(0.3, 1)]
    public void At_OutOfRange_IsRefused(double ratio, double vapour) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CombustionProducts.At(ratio, vapour));
}
