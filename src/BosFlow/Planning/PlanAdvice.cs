using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>Aperture and exposure that suit a rig.</summary>
internal sealed record PlanAdvice
{
    /// <summary>Blur at the flow over the finest wavelength of which nine tenths shall be left: 1 / 3.45 by the response of a disc (computed).</summary>
    public const double WavelengthsPerBlur = 3.5;

    /// <summary>Largest e^-2 diameter of the diffraction spot, px (judgement: above it dots of 3 px lose contrast).</summary>
    public const double LargestSpotPixels = 2;

    /// <summary>Largest smear by vibration, px (judgement: a tenth of a dot's image).</summary>
    public const double LargestSmearPixels = 0.3;

    /// <summary>Largest motion of the flow in windows (common practice, no source).</summary>
    public const double LargestFlowMotionWindows = 0.5;

    // f-numbers of third stops as engraved on lenses.
    private static readonly double[] Engraved =
        [1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20, 22, 25, 29, 32, 36, 40, 45, 51, 57, 64];

    /// <summary>Finest structure to be resolved, m.</summary>
    public required double Finest { get; init; }

    /// <summary>Least f-number for the blur at the flow, 1.</summary>
    public required double ForBlur { get; init; }

    /// <summary>Least f-number for the depth of the board, 1; 0 for a flat one.</summary>
    public required double ForDepth { get; init; }

    /// <summary>Largest f-number for diffraction, 1.</summary>
    public required double ForDiffraction { get; init; }

    /// <summary>Recommended f-number, 1.</summary>
    public required double FNumber { get; init; }

    /// <summary>Longest exposure for vibration, s; null = no limit known.</summary>
    public required double? ForVibration { get; init; }

    /// <summary>Longest exposure that freezes the flow's eddies, s; null = no limit known. A wish: no shutter freezes a fast jet, and the mean needs none.</summary>
    public required double? ForFlow { get; init; }

    /// <summary>Advice for a rig.</summary>
    public static PlanAdvice Of(PlanPoint point, FlowOptics? flow)
    {
        PlanRequest request = point.Request;
        RigGeometry rig = request.Rig;
        double pitch = rig.PixelPitchMetres!.Value;
        double window = request.Displacement.WindowPixels * point.FlowScale;
        double finest = request.FinestStructureMetres ?? flow?.SizeMetres ?? window;
        double forBlur = rig.FNumber!.Value * point.FlowBlur * WavelengthsPerBlur / finest;
        double half = request.Board.DepthMetres / 2;
        double focal = rig.FocalLengthMetres!.Value;
        double front = Math.Max(point.BoardDistance - half, 1.01 * focal);
        double forDepth = half > 0 ? Math.Max(Defocus.FNumberFor(focal, point.BoardDistance, front, pitch), Defocus.FNumberFor(focal, point.BoardDistance, point.BoardDistance + half, pitch)) : 0;
        double forDiffraction = Diffraction.FNumberFor(LargestSpotPixels * pitch / DotImage.SpotShare, request.Gas.WavelengthMetres, point.Magnification);
        return new PlanAdvice
        {
            Finest = finest,
            ForBlur = forBlur,
            ForDepth = forDepth,
            ForDiffraction = forDiffraction,
            FNumber = Choose(Math.Max(forBlur, forDepth), forDiffraction),
            ForVibration = PlanMotion.LongestExposure(point, LargestSmearPixels),
            ForFlow = flow?.SpeedMetresPerSecond is double speed ? LargestFlowMotionWindows * window / speed : null,
        };
    }

    /// <summary>Stops of light that the advice gives more than what was asked for; null where the exposure is not known.</summary>
    public double? LightChangeStops(PlanRequest request)
    {
        if (request.Camera.ExposureSeconds is not double asked)
            return null;
        double number = request.Rig.FNumber!.Value / FNumber;
        return Math.Log2((ForVibration ?? asked) / asked * number * number);
    }

    /// <summary>The engraved number next above the least that is needed, but not above what diffraction allows.</summary>
    private static double Choose(double least, double most)
    {
        double above = Engraved.FirstOrDefault(number => number >= 0.999 * least, Engraved[^1]);
        double allowed = Engraved.LastOrDefault(number => number <= most, Engraved[0]);
        return Math.Min(above, allowed);
    }
}
