using System.Text.Json.Nodes;
using BosFlow.Triage;

namespace BosFlow.Results.Triage;

/// <summary>A judgement for machines; null for what is not known.</summary>
public static class TriageJson
{
    /// <summary>The content of the document.</summary>
    /// <param name="result">The judgement.</param>
    public static JsonObject Of(TriageResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        TriageMeasures m = result.Measures;
        return new JsonObject
        {
            ["usable"] = result.IsUsable,
            ["footage"] = result.Info.Description,
            ["files"] = new JsonArray([.. result.Info.Files.Take(1).Select(file => (JsonNode)Path.GetFileName(file))]),
            ["frames"] = result.Info.FrameCount,
            ["sampled_frames"] = result.Frames.Count,
            ["usable_frames"] = new JsonArray([.. result.UsableRanges.Select(range => (JsonNode)new JsonArray(range.First, range.Last))]),
            ["findings"] = new JsonArray([.. result.Findings.Select(finding => (JsonNode)new JsonObject
            {
                ["fault"] = Word(finding.Fault), ["effect"] = Number(finding.Effect), ["fatal"] = finding.IsFatal, ["sentence"] = finding.Sentence, ["remedy"] = finding.Remedy,
            })]),
            ["dot_px"] = Number(m.DotPixels),
            ["sharp_dot_px"] = Number(m.SharpDotPixels),
            ["dots_per_window"] = Number(m.DotsPerWindow),
            ["pattern_share"] = Number(m.PatternShare),
            ["contrast"] = Number(m.Contrast),
            ["level"] = Number(m.Level),
            ["clipped_high"] = Number(m.ClippedHigh),
            ["clipped_low"] = Number(m.ClippedLow),
            ["exposure_range"] = Number(m.ExposureRange),
            ["flicker"] = Number(m.Flicker),
            ["shake_rms_px"] = Number(m.ShakeRms),
            ["shake_px_per_frame"] = Number(m.ShakePerFrame),
            ["shake_hz"] = Number(m.ShakeHertz),
            ["smear_px"] = Number(m.SmearPixels),
            ["row_wobble_px"] = Number(m.Wobble),
            ["row_wobble_cycles"] = Number(m.WobbleCycles),
            ["row_jitter_px"] = Number(m.Jitter),
            ["steadiest_row_jitter_px"] = Number(m.LeastJitter),
            ["sharpness_pulse_px2"] = Number(m.SharpnessPulse),
            ["missing_frames"] = result.Times.Missing + result.Times.Lost,
            ["repeated_share"] = Number(m.RepeatedShare),
            ["irregular_share"] = Number(result.Times.IrregularShare),
            ["bits_per_pixel"] = Number(result.Request.BitsPerPixel ?? double.NaN),
            ["blockiness"] = Number(m.Blockiness),
            ["noise_floor_px"] = Number(m.NoiseFloor),
            ["noise_floor_density_gradient_path_kg_m3"] = Number(result.NoiseGradientPath ?? double.NaN),
        };
    }

    /// <summary>A fault as a word of a document: small letters, parts joined by underscores.</summary>
    /// <param name="fault">The fault.</param>
    public static string Word(TriageFault fault) =>
        string.Concat(fault.ToString().Select((letter, i) => i > 0 && char.IsUpper(letter) ? $"_{char.ToLowerInvariant(letter)}" : $"{char.ToLowerInvariant(letter)}"));

    private static JsonValue? Number(double value) => double.IsFinite(value) ? JsonValue.Create(value) : null;
}
