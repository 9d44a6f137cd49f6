
namespace BosFlow.Density;

/// <summary>Density and temperature with all known uncertainties at many places, and the budget at one of them.</summary>
/// <remarks>
/// Contributions are the changes of the result when one input is raised by its standard uncertainty, everything computed anew; independent of each other, they add in
/// quadrature (Guide to the Expression of Uncertainty in Measurement, JCGM 100:2008, section 5.1, with finite differences as in its 5.1.3 note 2, from memory).
/// </remarks>
internal sealed class StateField
{
    private readonly List<(string Source, string Input, GasState[]? Raised)> systematic = [];
    private readonly DensityConversion conversion;
    private readonly double[] randomDensity;

    /// <summary>States of an index field.</summary>
    /// <param name="conversion">The conversion with the inputs as given.</param>
    /// <param name="indexExcess">n - n0 at each place; NaN where not known.</param>
    /// <param name="sigmaExcess">Its standard uncertainty from the displacement.</param>
    public StateField(DensityConversion conversion, double[] indexExcess, double[] sigmaExcess)
    {
        this.conversion = conversion;
        States = [.. indexExcess.Select(conversion.At)];
        randomDensity = [.. sigmaExcess.Select(sigma => sigma * conversion.DensityPerIndex)];
    }

    /// <summary>State at each place.</summary>
    public GasState[] States { get; }

    /// <summary>Standard uncertainty of the density from the displacement, kg/m3.</summary>
    public IReadOnlyList<double> SigmaRandom => randomDensity;

    /// <summary>Adds a source of uncertainty.</summary>
    /// <param name="source">What it is.</param>
    /// <param name="input">Value and uncertainty with units.</param>
    /// <param name="raised">The states with it raised by its standard uncertainty; null where that is not stated.</param>
    public void Add(string source, string input, GasState[]? raised) => systematic.Add((source, input, raised));

    /// <summary>Standard uncertainty of the density at a place, all contributions, kg/m3.</summary>
    public double SigmaDensity(int place) => Root(randomDensity[place], systematic.Select(line => DensityPart(line.Raised, place)));

    /// <summary>Standard uncertainty of the temperature at a place, all contributions, K.</summary>
    public double SigmaTemperature(int place) => Root(RandomTemperature(place), systematic.Select(line => TemperaturePart(line.Raised, place)));

    /// <summary>The budget at a place.</summary>
    /// <param name="place">Number of the place.</param>
    /// <param name="x">Its x, px.</param>
    /// <param name="y">Its y, px.</param>
    /// <param name="displacement">Size of the displacement's uncertainty in words.</param>
    public UncertaintyBudget Budget(int place, double x, double y, string displacement)
    {
        IEnumerable<BudgetLine> lines = systematic
            .Select(line => new BudgetLine(line.Source, line.Input, DensityPart(line.Raised, place), conversion.HasTemperature ? TemperaturePart(line.Raised, place) : double.NaN, line.Raised is not null))
            .Prepend(new BudgetLine("displacement (noise of frames and reference)", displacement, randomDensity[place], RandomTemperature(place), IsStated: true));
        return new UncertaintyBudget
        {
            X = x,
            Y = y,
            DensityKgM3 = States[place].DensityKgM3,
            SigmaDensityKgM3 = SigmaDensity(place),
            TemperatureKelvin = States[place].TemperatureKelvin,
            SigmaTemperatureKelvin = SigmaTemperature(place),
            Lines = [.. lines.OrderByDescending(line => line.IsStated).ThenByDescending(line => line.DensityKgM3)],
        };
    }

    // T is proportional to 1 / rho.
    private double RandomTemperature(int place) => States[place].TemperatureKelvin * randomDensity[place] / States[place].DensityKgM3;

    private double DensityPart(GasState[]? raised, int place) => raised is null ? 0 : Math.Abs(raised[place].DensityKgM3 - States[place].DensityKgM3);

    private double TemperaturePart(GasState[]? raised, int place) => raised is null ? 0 : Math.Abs(raised[place].TemperatureKelvin - States[place].TemperatureKelvin);

    private static double Root(double random, IEnumerable<double> parts) => Math.Sqrt((random * random) + parts.Sum(part => part * part));
}
