namespace BosFlow.Optics;

/// <summary>What leaves the complete, lean combustion of a kerosene-like fuel, CH1.92, in air.</summary>
/// <remarks>
/// CH1.92 + 1.48 O2 gives CO2 + 0.96 H2O, with the excess air unchanged; nothing dissociates (true below about 1800 K). The ratio 1.92 hydrogen atoms a
/// carbon atom is common for jet fuel (common practice, no source); 1.8 to 2.0 shifts K times the molar mass, on which the temperature depends, by less than 0.07 %. Dry air: mole fractions of ISO 2533:1975, gases below 0.04 % with the nitrogen.
/// </remarks>
public static class CombustionProducts
{
    /// <summary>Hydrogen atoms a carbon atom of the fuel.</summary>
    public const double HydrogenPerCarbon = 1.92;

    /// <summary>Relative standard uncertainty of K for what the model leaves out: another fuel, unburnt gas, and the slight growth of K in hot gas (a judgement, no source).</summary>
    public const double ModelRelativeSigma = 0.005;

    private const double OxygenPerFuel = 1 + (HydrogenPerCarbon / 4);

    // kg of fuel a mole of carbon atoms; IUPAC standard atomic weights 12.011 and 1.008.
    private const double FuelMolarMass = 12.011e-3 + (HydrogenPerCarbon * 1.008e-3);

    private const double Oxygen = 0.20946;
    private const double Argon = 0.00934;
    private const double CarbonDioxide = 0.00036;
    private const double Nitrogen = 1 - Oxygen - Argon - CarbonDioxide;

    /// <summary>Mass of fuel over mass of dry air at which all oxygen is used, 0.0681; the fuel-air ratio is this times the equivalence ratio.</summary>
    public static double StoichiometricFuelAirRatio { get; } = Oxygen / OxygenPerFuel * FuelMolarMass / DryAir().MolarMass;

    /// <summary>Dry air by its main gases.</summary>
    public static GasMixture DryAir() => At(0, 0);

    /// <summary>The products.</summary>
    /// <param name="equivalenceRatio">Fuel over the fuel that the air could burn, 0 (air) to 1 (all oxygen used).</param>
    /// <param name="vapourMoleFraction">Mole fraction of water vapour in the air before, 0 to less than 1; the same share of oxygen is missing.</param>
    /// <returns>The mixture.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static GasMixture At(double equivalenceRatio, double vapourMoleFraction)
    {
        if (!(equivalenceRatio is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(equivalenceRatio), equivalenceRatio, "must lie between 0 and 1");
        if (!(vapourMoleFraction is >= 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(vapourMoleFraction), vapourMoleFraction, "must be at least 0 and less than 1");

        // Moles a mole of dry air.
        double fuel = equivalenceRatio * Oxygen / OxygenPerFuel;
        double vapour = vapourMoleFraction / (1 - vapourMoleFraction);
        return new GasMixture(
        [
            new GasFraction("nitrogen", Nitrogen),
            new GasFraction("oxygen", Math.Max(0, Oxygen - (OxygenPerFuel * fuel))),
            new GasFraction("argon", Argon),
            new GasFraction("carbon dioxide", CarbonDioxide + fuel),
            new GasFraction("water vapour", vapour + (HydrogenPerCarbon / 2 * fuel)),
        ]);
    }
}
