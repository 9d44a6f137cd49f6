using BosFlow.Camera;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>What vibration and the flow's own motion do during exposure and readout; a value that cannot be told is null.</summary>
internal sealed record PlanMotion
{
    private const double AmplitudeOfSigma = 1.4142135623730951;

    /// <summary>Standard deviation of the picture's motion, px.</summary>
    public double? Sigma { get; private init; }

    /// <summary>Largest smear within the exposure, px.</summary>
    public double? Smear { get; private init; }

    /// <summary>Part of the amplitude left by the mean over the exposure, 1.</summary>
    public double? Attenuation { get; private init; }

    /// <summary>Largest difference between the first and the last row, px.</summary>
    public double? Skew { get; private init; }

    /// <summary>Periods within a readout, 1.</summary>
    public double? PeriodsPerReadout { get; private init; }

    /// <summary>Motion of the flow during the exposure, px of the flow plane.</summary>
    public double? FlowSmear { get; private init; }

    /// <summary>The motion of a rig's picture.</summary>
    public static PlanMotion Of(PlanPoint point, FlowOptics? flow)
    {
        CameraFacts camera = point.Request.Camera;
        double? sigma = camera.VibrationRadians * PixelsPerTurn(point);
        double? amplitude = sigma * AmplitudeOfSigma;
        return new PlanMotion
        {
            Sigma = sigma,
            Smear = amplitude is double a && camera is { ExposureSeconds: double t, VibrationHertz: double hertz } ? ExposureMotion.LargestMotion(a, hertz, t) : null,
            Attenuation = camera is { ExposureSeconds: double e, VibrationHertz: double f } ? ExposureMotion.Attenuation(f, e) : null,
            Skew = camera.ReadoutSeconds == 0 && amplitude is not null ? 0
                : amplitude is double b && camera is { ReadoutSeconds: double r, VibrationHertz: double g } ? ExposureMotion.LargestMotion(b, g, r) : null,
            PeriodsPerReadout = camera.ReadoutSeconds * camera.VibrationHertz,
            FlowSmear = flow?.SpeedMetresPerSecond * camera.ExposureSeconds / point.FlowScale,
        };
    }

    /// <summary>Longest exposure within which vibration smears no more than a limit, s; null where nothing is known or it never does.</summary>
    public static double? LongestExposure(PlanPoint point, double limitPixels)
    {
        CameraFacts camera = point.Request.Camera;
        return camera is { VibrationRadians: > 0 and double angle, VibrationHertz: double hertz }
            ? ExposureMotion.LongestTime(angle * PixelsPerTurn(point) * AmplitudeOfSigma, hertz, limitPixels)
            : null;
    }

    /// <summary>Shift of the picture for 1 rad by which the camera turns, px.</summary>
    private static double PixelsPerTurn(PlanPoint point) => point.BoardDistance / point.BoardScale;
}
