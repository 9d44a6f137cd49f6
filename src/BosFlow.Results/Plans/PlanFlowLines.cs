using BosFlow.Planning;
using static BosFlow.Results.Plans.PlanFigures;

namespace BosFlow.Results.Plans;

/// <summary>The lines of the expected flow.</summary>
internal static class PlanFlowLines
{
    private const double ZeroCelsius = 273.15;

    // Above it the dots of a window no longer move as one.
    private const double LargestStrain = 0.1;

    public static PlanGroup Of(PlanResult plan)
    {
        if (plan.Flow is not { } flow)
            return new PlanGroup("Expected flow", [], "None is given. With [expected] kind = \"jet\" (or --expected jet) and its keys the sheet tells its displacement and whether it is seen.");
        List<PlanLine> lines =
        [
            Line("Largest deflection", flow.DeflectionRadians * 1e3, "mrad"),
            Line("Largest displacement", flow.DisplacementPixels, "px", "before window and blur average it"),
            Line("Measured of it", flow.MeasuredPixels, "px", $"{Text(flow.Response * 100)} % is left"),
            Ratio("Ratio to the noise, one frame", flow.SignalToNoise, flow.OneFrame),
            Ratio("Ratio to the noise, mean", flow.MeanSignalToNoise, flow.Mean),
            Line("Strain", flow.StrainPerPixel, "px/px", flow.StrainPerPixel > LargestStrain ? "above 0.1: dots within a window move apart" : "largest change of the displacement from pixel to pixel"),
            Millimetres("Size of the structure", flow.SizeMetres),
        ];
        if (flow.Density is double density)
            lines.Add(Line("Density where it differs most", density, "kg m-3"));
        if (flow.Temperature is double temperature)
            lines.Add(Line("Temperature there", temperature, "K", $"{Text(temperature - ZeroCelsius)} degC"));
        return new PlanGroup("Expected flow", lines, $"{Sentence(flow.Description)} Source: {Sentence(flow.Source)}");
    }

    /// <summary>The verdict in words.</summary>
    public static string Verdict(Detectability verdict) => verdict switch
    {
        Detectability.Good => "good: can be quantified (10 and above)",
        Detectability.Marginal => "marginal: seen, hardly to be quantified (3 to 10)",
        _ => "hopeless: not seen (below 3)",
    };

    private static PlanLine Ratio(string name, double ratio, Detectability verdict) => Line(name, ratio, string.Empty, Verdict(verdict));

    private static string Sentence(string text)
    {
        string whole = text.EndsWith('.') ? text : text + ".";
        return whole.Length > 0 ? char.ToUpperInvariant(whole[0]) + whole[1..] : whole;
    }
}
