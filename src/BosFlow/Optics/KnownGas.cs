namespace BosFlow.Optics;

/// <summary>A pure gas (or air) of the built-in table.</summary>
/// <param name="Name">Name as the case file writes it.</param>
/// <param name="GladstoneDaleM3PerKg">Gladstone-Dale coefficient for visible light (sodium D line, 589 nm), m3/kg; by wavelength see <see cref="GasDispersion"/>.</param>
/// <param name="MolarMassKgPerMol">Molar mass, kg/mol.</param>
/// <remarks>
/// Source of the coefficients: table in W. Merzkirch, Flow Visualization, 2nd ed., Academic Press 1987 (three digits, quoted from
/// memory). Nitrogen, oxygen, argon and carbon dioxide agree within 1 % with the dispersion formulas of Peck and Khanna 1966,
/// Zhang, Lu and Wang 2008, Peck and Fisher 1964, and Old, Gentili and Peck 1971, which the tests check; helium with 3.490e-5 at 546 nm
/// and 273 K (Weber, Handbook of Optical Materials, 2003). Molar masses: IUPAC standard atomic weights, air as in ISO 2533.
/// </remarks>
public sealed record KnownGas(string Name, double GladstoneDaleM3PerKg, double MolarMassKgPerMol)
{
    private static readonly KnownGas[] Table =
    [
        new("air", 0.2262e-3, 28.9644e-3),
        new("nitrogen", 0.238e-3, 28.0134e-3),
        new("oxygen", 0.190e-3, 31.998e-3),
        new("argon", 0.158e-3, 39.948e-3),
        new("carbon dioxide", 0.229e-3, 44.0095e-3),
        new("helium", 0.196e-3, 4.0026e-3),
        new("water vapour", 0.310e-3, 18.0153e-3),
        new("hydrogen", 1.55e-3, 2.0159e-3),
        new("neon", 0.075e-3, 20.1797e-3),
        new("krypton", 0.115e-3, 83.798e-3),
        new("xenon", 0.119e-3, 131.293e-3),
        new("methane", 0.617e-3, 16.0425e-3),
        new("nitric oxide", 0.221e-3, 30.0061e-3),
        new("carbon tetrafluoride", 0.122e-3, 88.0043e-3),
        new("sulphur hexafluoride", 0.113e-3, 146.055e-3),
    ];

    /// <summary>Names of all gases of the table.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. Table.Select(gas => gas.Name)];

    /// <summary>Looks a gas up by name, whatever its case.</summary>
    /// <param name="name">Name, for example "argon".</param>
    /// <returns>The gas, or null where the table has none of this name.</returns>
    public static KnownGas? Find(string name) =>
        Array.Find(Table, gas => string.Equals(gas.Name, name, StringComparison.OrdinalIgnoreCase));
}
