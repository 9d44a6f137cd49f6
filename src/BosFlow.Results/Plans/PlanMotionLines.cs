using BosFlow.Camera;
using BosFlow.Planning;
using static BosFlow.Results.Plans.PlanFigures;

namespace BosFlow.Results.Plans;

/// <summary>The lines of everything that moves during an exposure or a readout.</summary>
internal static class PlanMotionLines
{
    public static PlanGroup Of(PlanResult plan)
    {
        CameraFacts camera = plan.Request.Camera;
        return new PlanGroup(
            "Motion",
            [
                Known("Picture moves by vibration", plan.VibrationPixels, "px", "one standard deviation", Missing("motion", (camera.VibrationRadians, "vibration_mrad"))),
                Known("Smear by vibration", plan.VibrationSmearPixels, "px", $"largest, in {Milliseconds(camera.ExposureSeconds)}", Missing("smear", (camera.ExposureSeconds, "exposure_ms"), (camera.VibrationRadians, "vibration_mrad"), (camera.VibrationHertz, "vibration_hz"))),
                Known("Vibration left by the exposure", plan.VibrationAttenuation * 100, "%", "of its amplitude, behind the mean over the exposure", Missing("mean", (camera.ExposureSeconds, "exposure_ms"), (camera.VibrationHertz, "vibration_hz"))),
                Known("Skew between first and last row", plan.RowSkewPixels, "px", $"largest, {Text(plan.PeriodsPerReadout ?? double.NaN)} periods in a readout", Missing("skew", (camera.ReadoutSeconds, "readout_ms"), (camera.VibrationRadians, "vibration_mrad"), (camera.VibrationHertz, "vibration_hz"))),
                Known("Flow moves during the exposure", plan.Flow?.SmearPixels, "px", "in the plane of the flow", FlowMissing(plan, (camera.ExposureSeconds, "exposure_ms"))),
                Known("Exposure that freezes eddies", plan.FreezingExposureSeconds * 1e3, "ms", "half a window of motion; the mean needs no such exposure", FlowMissing(plan)),
            ]);
    }

    private static string Missing(string what, params (double? Value, string Key)[] needed)
    {
        string[] missing = [.. needed.Where(item => item.Value is null).Select(item => item.Key)];
        return missing.Length switch
        {
            0 => $"cannot be told: no {what}",
            1 => $"{missing[0]} is not given: no {what}",
            _ => $"{string.Join(", ", missing[..^1])} and {missing[^1]} are not given: no {what}",
        };
    }

    /// <summary>Why vibration sets no limit to the exposure.</summary>
    public static string NoLimit(PlanResult plan)
    {
        CameraFacts camera = plan.Request.Camera;
        bool isKnown = camera is { VibrationRadians: not null, VibrationHertz: not null };
        return isKnown ? "no limit: vibration never smears the picture that far" : Missing("limit", (camera.VibrationRadians, "vibration_mrad"), (camera.VibrationHertz, "vibration_hz"));
    }

    private static string FlowMissing(PlanResult plan, params (double? Value, string Key)[] alsoNeeded)
    {
        if (plan.Flow is null)
            return "no flow is given: no motion";
        if (plan.Request.Flow is not (ExpectedFlow.Jet or ExpectedFlow.Plume))
            return "this kind of flow has no speed here: no motion";
        bool hasSpeed = plan.Request.Flow is ExpectedFlow.Jet { SpeedMetresPerSecond: not null } or ExpectedFlow.Plume { SpeedMetresPerSecond: not null };
        return Missing("motion", [.. alsoNeeded, (hasSpeed ? 1 : null, "speed_m_per_s")]);
    }

    private static string Milliseconds(double? seconds) => $"{Text((seconds ?? double.NaN) * 1e3)} ms";
}
