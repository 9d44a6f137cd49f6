using System.Text.Json.Nodes;
using BosFlow.Planning;
using static BosFlow.Results.Plans.PlanFigures;

namespace BosFlow.Results.Plans;

/// <summary>The best rigs within limits: those of which none is bettered in ratio, resolution and board at once.</summary>
public static class OptimumStudy
{
    /// <summary>Name of the picture.</summary>
    public const string FileName = "optimise.png";

    /// <summary>Table and picture.</summary>
    /// <param name="plan">The plan as it is.</param>
    /// <param name="optimum">What the search found; at least one rig.</param>
    public static PlanStudy Of(PlanResult plan, PlanOptimum optimum)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(optimum);
        PlanCandidate best = optimum.Best ?? throw new ArgumentException("A study needs at least one rig.", nameof(optimum));
        IReadOnlyList<PlanCandidate> front = [.. optimum.Front.Append(best).Distinct().OrderByDescending(candidate => candidate.SignalToNoise)];
        return new PlanStudy
        {
            FileName = FileName,
            Title = "The best rigs within the limits",
            Note = $"{optimum.Judged} rigs were judged. None within the limits is better than one of these in ratio, resolution and board width at once. The one marked * has the largest ratio over resolution. Take it over: {Keys(best)}",
            Caption = $"Ratio of {SweptSignal.Subject(plan)} to its noise in one frame over the wavelength of which half is left in mm, coloured by the width of the board in mm. The ring is the best, with the largest ratio over resolution; the cross is the plan as it is.",
            Columns = ["", "lens to flow (mm)", "flow to board (mm)", "split", "focal length (mm)", "f-number", "ratio", "half left of (mm)", "board (mm)", "view at flow (mm)", "light (stops)"],
            Rows = [.. front.Select(candidate => Row(candidate, candidate == best))],
            Png = OptimumPlot.Render(plan, front, best),
            Document = Document(optimum, front, best),
        };
    }

    /// <summary>The options that make a plan of a rig.</summary>
    private static string Keys(PlanCandidate candidate)
    {
        Optics.RigGeometry rig = candidate.Request.Rig;
        return $"--lens-to-flow-mm {Whole(rig.LensToFlowMetres)} --flow-to-background-mm {Whole(rig.FlowToBackgroundMetres)} --focal-length-mm {Given((rig.FocalLengthMetres ?? double.NaN) * 1e3)} --f-number {Given(rig.FNumber ?? double.NaN)}";
    }

    private static string Whole(double metres) => Given(Math.Round(metres * 1e3));

    private static IReadOnlyList<string> Row(PlanCandidate candidate, bool isBest)
    {
        Optics.RigGeometry rig = candidate.Request.Rig;
        double distance = rig.LensToFlowMetres + rig.FlowToBackgroundMetres;
        return
        [
            isBest ? "*" : string.Empty, Text(rig.LensToFlowMetres * 1e3), Text(rig.FlowToBackgroundMetres * 1e3), Text(rig.FlowToBackgroundMetres / distance), Given((rig.FocalLengthMetres ?? double.NaN) * 1e3), Given(rig.FNumber ?? double.NaN),
            Text(candidate.SignalToNoise), Text(candidate.ResolutionMetres * 1e3), $"{Text(candidate.BoardWidthMetres * 1e3)} x {Text(candidate.BoardHeightMetres * 1e3)}", Text(candidate.ViewWidthMetres * 1e3), Text(candidate.LightStops),
        ];
    }

    private static JsonObject Document(PlanOptimum optimum, IReadOnlyList<PlanCandidate> front, PlanCandidate best) => new()
    {
        ["judged"] = optimum.Judged,
        ["front"] = new JsonArray([.. front.Select(candidate => (JsonNode)new JsonObject
        {
            ["best"] = candidate == best,
            ["lens_to_flow_m"] = PlanJson.Number(candidate.Request.Rig.LensToFlowMetres),
            ["flow_to_background_m"] = PlanJson.Number(candidate.Request.Rig.FlowToBackgroundMetres),
            ["focal_length_m"] = PlanJson.Number(candidate.Request.Rig.FocalLengthMetres),
            ["f_number"] = PlanJson.Number(candidate.Request.Rig.FNumber),
            ["ratio"] = PlanJson.Number(candidate.SignalToNoise),
            ["half_response_wavelength_m"] = PlanJson.Number(candidate.ResolutionMetres),
            ["board_width_m"] = PlanJson.Number(candidate.BoardWidthMetres),
            ["board_height_m"] = PlanJson.Number(candidate.BoardHeightMetres),
            ["view_width_m"] = PlanJson.Number(candidate.ViewWidthMetres),
            ["light_stops"] = PlanJson.Number(candidate.LightStops),
        })]),
    };
}
