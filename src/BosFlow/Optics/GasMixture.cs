namespace BosFlow.Optics;

/// <summary>A gas by mole fractions of known gases; molar mass and Gladstone-Dale coefficient follow.</summary>
public sealed class GasMixture
{
    private readonly (KnownGas Gas, double MoleFraction)[] parts;

    /// <summary>A mixture.</summary>
    /// <param name="fractions">Gases and their mole fractions, each 0 or more; scaled so that they add to 1.</param>
    /// <exception cref="ConfigurationException">A gas is not known, a fraction is negative or no number, or all are 0; one sentence for each problem.</exception>
    public GasMixture(IReadOnlyList<GasFraction> fractions)
    {
        ArgumentNullException.ThrowIfNull(fractions);
        string[] problems = [.. fractions.Select(Problem).OfType<string>()];
        if (problems.Length > 0)
            throw new ConfigurationException(problems);
        double sum = fractions.Sum(part => part.MoleFraction);
        if (!(sum > 0))
            throw new ConfigurationException(["The mole fractions of the gas add to 0; give at least one that is greater."]);
        parts = [.. fractions.Where(part => part.MoleFraction > 0).Select(part => (KnownGas.Find(part.Name)!, part.MoleFraction / sum))];
        MolarMass = parts.Sum(part => part.MoleFraction * part.Gas.MolarMassKgPerMol);
    }

    /// <summary>A pure gas.</summary>
    /// <param name="gas">The gas.</param>
    public GasMixture(KnownGas gas)
    {
        ArgumentNullException.ThrowIfNull(gas);
        parts = [(gas, 1)];
        MolarMass = gas.MolarMassKgPerMol;
    }

    /// <summary>Mean molar mass, kg/mol.</summary>
    public double MolarMass { get; }

    /// <summary>The gases and their mole fractions, which add to 1.</summary>
    public IReadOnlyList<GasFraction> Fractions => [.. parts.Select(part => new GasFraction(part.Gas.Name, part.MoleFraction))];

    /// <summary>The Gladstone-Dale coefficient K = sum of Y K over the gases, with Y their mass fractions.</summary>
    /// <param name="wavelengthMetres">Wavelength, m.</param>
    /// <returns>Coefficient; uncertainty (the gases' own, taken as independent); sources.</returns>
    /// <exception cref="ConfigurationException">The wavelength lies outside the range of one of the gases.</exception>
    /// <remarks>Source of the rule: each gas adds K rho of its own density, as refractivities of gases add (e.g. W. Merzkirch, Flow Visualization, 2nd ed. 1987).</remarks>
    public GladstoneDaleValue GladstoneDaleAt(double wavelengthMetres)
    {
        if (parts.Length == 1)
            return GasDispersion.Coefficient(parts[0].Gas, wavelengthMetres);
        double sum = 0;
        double variance = 0;
        var sources = new List<string>();
        foreach ((KnownGas gas, double moleFraction) in parts)
        {
            GladstoneDaleValue value = GasDispersion.Coefficient(gas, wavelengthMetres);
            double share = moleFraction * gas.MolarMassKgPerMol / MolarMass * value.M3PerKg;
            sum += share;
            variance += share * value.RelativeSigma * share * value.RelativeSigma;
            if (!sources.Contains(value.Source))
                sources.Add(value.Source);
        }

        return new GladstoneDaleValue(sum, Math.Sqrt(variance) / sum, string.Join("; ", sources));
    }

    private static string? Problem(GasFraction part)
    {
        if (KnownGas.Find(part.Name) is null)
            return $"Gas '{part.Name}' of the composition is not in the table ({string.Join(", ", KnownGas.Names)}); name one of these.";
        return part.MoleFraction is >= 0 and <= double.MaxValue
            ? null
            : FormattableString.Invariant($"The mole fraction {part.MoleFraction} of {part.Name} is not allowed; give a number from 0 to 1.");
    }
}
