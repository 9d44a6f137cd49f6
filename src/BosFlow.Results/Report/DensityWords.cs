using System.Globalization;
using BosFlow.Results.Maps;

namespace BosFlow.Results.Report;

/// <summary>The main figures of a density in plain words.</summary>
internal static class DensityWords
{
    private const double Celsius = 273.15;

    /// <summary>The sentences that the report begins its section with; the first holds the main figure.</summary>
    public static IReadOnlyList<string> Sentences(DensityFinding finding, double? flowMetresPerPixel)
    {
        if (finding is not { Main: { } main, Lowest: { } lowest, Highest: { } highest })
            return ["No density could be determined: the measured displacement reaches no place of the field. The warnings say why."];
        string name = Name(finding);
        string unit = UnitText.Readable(finding.Unit);
        string first = $"Where it differs most from {Against(finding)}, at {Where(main, flowMetresPerPixel)}, the {name} is {Figures.WithSigma(main.Value, main.Sigma, unit)} (one sigma){Temperature(finding)}.";
        string range = $"Over the field it runs from {Figures.WithSigma(lowest.Value, lowest.Sigma, unit)} at {Where(lowest, flowMetresPerPixel)} to {Figures.WithSigma(highest.Value, highest.Sigma, unit)} at {Where(highest, flowMetresPerPixel)}; among many places, noise alone makes some look extreme.";
        return finding.IsDifference
            ? ["Only differences are known, no densities: no place of known density was given, or none is reached by the measurement. Name one with ambient_edges or ambient_regions in the section [flow] of the case.", first, range]
            : [first, range];
    }

    public static string Line(DensityFinding finding)
    {
        if (finding.Main is not { } main)
            return "not determined; the warnings say why";
        string difference = finding.IsDifference ? "difference to the mean of the field, " : string.Empty;
        string path = finding.Quantity == "density_path" ? "path integral of its difference, " : string.Empty;
        string temperature = double.IsFinite(finding.TemperatureKelvin) ? $"; temperature {Figures.WithSigma(finding.TemperatureKelvin, finding.SigmaTemperatureKelvin, "K")}" : string.Empty;
        return $"{path}{difference}{Figures.WithSigma(main.Value, main.Sigma, finding.Unit)} (1 sigma) where it differs most, at {Pixels(main)}{temperature}";
    }

    public static string Pixels(double x, double y) => string.Create(CultureInfo.InvariantCulture, $"x = {x:0.#} px, y = {y:0.#} px");

    private static string Name(DensityFinding finding) => finding.Quantity == "density_path"
        ? "density difference, integrated along the line of sight,"
        : finding.IsDifference ? "density difference" : "density";

    private static string Against(DensityFinding finding) => finding.IsDifference ? "the mean of the field" : "the surroundings";

    private static string Temperature(DensityFinding finding) => double.IsFinite(finding.TemperatureKelvin)
        ? $", and the temperature {Figures.WithSigma(finding.TemperatureKelvin, finding.SigmaTemperatureKelvin, "K")} ({Figures.Text(Math.Round(finding.TemperatureKelvin - Celsius))} °C)"
        : string.Empty;

    private static string Where(FieldPlace place, double? flowMetresPerPixel) => flowMetresPerPixel is { } metres
        ? $"{Pixels(place)} ({Millimetres(place.X * metres)} mm, {Millimetres(place.Y * metres)} mm in the plane of the flow)"
        : Pixels(place);

    private static string Pixels(FieldPlace place) => Pixels(place.X, place.Y);

    private static string Millimetres(double metres) => (metres * 1000).ToString("0.0", CultureInfo.InvariantCulture);
}
