using System.Text.Json.Nodes;
using BosFlow.Cli.Scenes;
using BosFlow.Inspection;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>Words and numbers of a check of a printed board.</summary>
internal static class BoardCheckWords
{
    /// <summary>The lines of the result.</summary>
    public static IEnumerable<string> Lines(BoardCheck check, Board board, BoardCheckSettings settings)
    {
        foreach (string line in new TextTable(["Property", "measured", "description"], [.. Rows(check, board)]).Lines())
            yield return line;
        yield return string.Empty;
        foreach (CheckFinding finding in check.Findings)
            yield return $"{Word(finding.State),-8}  {finding.Subject}: {finding.Sentence}";
        yield return string.Empty;
        string unit = check.Scale.X is null ? "millimetres of the board: true ones only if it was printed at 100 %" : "true millimetres";
        string curve = settings.Tones == Camera.PictureTones.Srgb ? "grey levels taken to follow the sRGB curve (--linear for raw ones)" : "grey levels taken to be in proportion to the light";
        yield return $"Rests on:  {unit}; {curve}; {check.Scale.Basis}.";
        if (double.IsFinite(check.InkGainMetres))
            yield return FormattableString.Invariant($"Recommended: --ink-gain-mm {check.InkGainMetres * 1e3:0.000} (\u00b1 {check.InkGainSigma * 1e3:0.000})");
        CheckFinding[] bad = [.. check.Findings.Where(finding => finding.State == CheckState.Bad)];
        CheckFinding[] open = [.. check.Findings.Where(finding => finding.State == CheckState.Open)];
        string not = open.Length == 0 ? string.Empty : $" Not decided: {string.Join(", ", open.Select(finding => finding.Subject))}.";
        yield return bad.Length == 0 ? $"Verdict: OK.{not}" : $"Verdict: not OK ({string.Join(", ", bad.Select(finding => finding.Subject))}).{not}";
    }

    /// <summary>The document for machines.</summary>
    public static JsonObject Document(BoardCheck check, IReadOnlyList<string> outputs) => new()
    {
        ["ok"] = check.IsGood,
        ["fiducials_found"] = check.FiducialsFound.Count,
        ["fiducials_in_view"] = check.FiducialsInView,
        ["fiducials_on_board"] = check.FiducialsOnBoard,
        ["fiducials_rms_px"] = Number(check.Plane.RmsPixels),
        ["tilt_deg"] = Number(check.Plane.TiltRadians * 180 / Math.PI),
        ["blur_px"] = Number(check.BlurPixels),
        ["sizes"] = new JsonArray([.. check.Sizes.Select(size => (JsonNode)new JsonObject
        {
            ["dot_mm"] = Number(size.NominalMetres * 1e3),
            ["image_px"] = Number(size.ImagePixels),
            ["measured_mm"] = Number(size.DiameterMetres * 1e3),
            ["measured_sigma_mm"] = Number(size.DiameterSigma * 1e3),
            ["scatter_mm"] = Number(size.DiameterScatter * 1e3),
            ["dots_expected"] = size.Expected,
            ["dots_found"] = size.Found,
        })]),
        ["coverage"] = Number(check.Coverage),
        ["coverage_sigma"] = Number(check.CoverageSigma),
        ["coverage_expected"] = Number(check.NominalCoverage),
        ["paper_level"] = Number(check.PaperLevel),
        ["ink_level"] = Number(check.InkLevel),
        ["contrast"] = Number(check.Contrast),
        ["scale_x"] = Number(check.Scale.X ?? double.NaN),
        ["scale_x_sigma"] = Number(check.Scale.SigmaX),
        ["scale_y"] = Number(check.Scale.Y ?? double.NaN),
        ["scale_y_sigma"] = Number(check.Scale.SigmaY),
        ["ratio_x_to_y"] = Number(check.Scale.Ratio),
        ["ratio_x_to_y_sigma"] = Number(check.Scale.RatioSigma),
        ["scale_rests_on"] = check.Scale.Basis,
        ["recommended_ink_gain_mm"] = Number(check.InkGainMetres * 1e3),
        ["recommended_ink_gain_sigma_mm"] = Number(check.InkGainSigma * 1e3),
        ["findings"] = new JsonArray([.. check.Findings.Select(finding => (JsonNode)new JsonObject
        {
            ["state"] = finding.State.ToString().ToLowerInvariant(),
            ["subject"] = finding.Subject,
            ["sentence"] = finding.Sentence,
        })]),
        ["pictures"] = new JsonArray([.. outputs.Select(output => (JsonNode)output)]),
    };

    private static IEnumerable<IReadOnlyList<string>> Rows(BoardCheck check, Board board)
    {
        yield return ["Fiducials found", FormattableString.Invariant($"{check.FiducialsFound.Count}"), FormattableString.Invariant($"{check.FiducialsOnBoard}, {check.FiducialsInView} in view")];
        foreach (DotSizeCheck size in check.Sizes)
        {
            string measured = double.IsFinite(size.DiameterMetres)
                ? FormattableString.Invariant($"{size.DiameterMetres * 1e3:0.000} \u00b1 {size.DiameterSigma * 1e3:0.000} mm")
                : FormattableString.Invariant($"{(size.NominalMetres + check.InkGainMetres - board.Settings.InkGainMetres) * 1e3:0.000} \u00b1 {check.InkGainSigma * 1e3:0.000} mm (by covered area)");
            yield return ["Dot diameter, median", measured, FormattableString.Invariant($"{size.NominalMetres * 1e3:0.###} mm")];
            if (double.IsFinite(size.DiameterScatter))
                yield return ["  scatter from dot to dot", FormattableString.Invariant($"{size.DiameterScatter * 1e3:0.000} mm"), "0"];
            yield return ["  dots found", size.Found is { } found ? FormattableString.Invariant($"{found}") : "not counted", FormattableString.Invariant($"{size.Expected}")];
            yield return ["  width in the photo", FormattableString.Invariant($"{size.ImagePixels:0.0} px"), "-"];
        }

        yield return ["Coverage", FormattableString.Invariant($"{check.Coverage * 100:0.0} \u00b1 {check.CoverageSigma * 100:0.0} %"), FormattableString.Invariant($"{check.NominalCoverage * 100:0.0} %")];
        yield return ["Paper, part of full scale", FormattableString.Invariant($"{check.PaperLevel * 100:0} %"), "-"];
        yield return ["Ink, part of full scale", FormattableString.Invariant($"{check.InkLevel * 100:0} %"), "-"];
        yield return ["Unevenness of the light", FormattableString.Invariant($"{check.LightUnevenness * 100:0} %"), "-"];
        if (check.Scale is { X: { } x, Y: { } y })
        {
            yield return ["Printer's scale in x", FormattableString.Invariant($"{x:0.0000} \u00b1 {check.Scale.SigmaX:0.0000}"), "1"];
            yield return ["Printer's scale in y", FormattableString.Invariant($"{y:0.0000} \u00b1 {check.Scale.SigmaY:0.0000}"), "1"];
        }

        yield return ["Printer's scale, x : y", FormattableString.Invariant($"{check.Scale.Ratio:0.0000} \u00b1 {check.Scale.RatioSigma:0.0000}"), "1"];
        yield return ["Blur of edges, one sigma", FormattableString.Invariant($"{check.BlurPixels:0.0} px"), "-"];
        yield return ["Tilt of the board", FormattableString.Invariant($"{check.Plane.TiltRadians * 180 / Math.PI:0.0} \u00b1 {check.Plane.TiltSigma * 180 / Math.PI:0.0}\u00b0"), "-"];
    }

    private static string Word(CheckState state) => state switch
    {
        CheckState.Good => "OK",
        CheckState.Bad => "not OK",
        _ => "open",
    };

    // JSON has no NaN: what is not known is null.
    private static JsonValue? Number(double value) => double.IsFinite(value) ? JsonValue.Create(value) : null;
}
