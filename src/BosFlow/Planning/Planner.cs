using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>Judges a rig before it is built.</summary>
public static class Planner
{
    private const double Detected = 3;
    private const double Quantified = 10;
    private const double SmallDotPixels = 2;
    private const double LargeDotPixels = 3;

    /// <summary>Everything that formulas tell of a rig.</summary>
    /// <param name="request">The rig; focal length, pixel pitch and f-number are needed.</param>
    /// <param name="cancellationToken">Stops between two parts.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="ConfigurationException">The rig, the gas or the flow cannot be; one sentence for each problem.</exception>
    public static PlanResult Judge(PlanRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Judge(PlanContext.Of(request), request, cancellationToken);
    }

    /// <summary>Judges one of many rigs; the request has been checked.</summary>
    internal static PlanResult Judge(PlanContext context, PlanRequest request, CancellationToken cancellationToken)
    {
        OpticalScale scale = OpticalScaling.From(request.Rig, request.Gas);
        PlanPoint point = PlanPoint.Of(context, request);
        PlanCheckFlow.ThrowIfImpossible(point, context.Flow);
        cancellationToken.ThrowIfCancellationRequested();
        PlanAdvice advice = PlanAdvice.Of(point, context.Flow);
        PlanMotion motion = PlanMotion.Of(point, context.Flow);
        double f = request.Rig.FocalLengthMetres!.Value;
        double number = request.Rig.FNumber!.Value;
        double pitch = request.Rig.PixelPitchMetres!.Value;
        double disc = point.Dot / point.BoardScale;
        double perSigma = Math.Abs(scale.DensityGradientPathPerPixel) * Detected;
        var result = new PlanResult
        {
            Request = request,
            Scale = scale,
            ViewAtBoard = FieldOfView.InPlane(point.BoardScale, (request.Camera.PictureWidth, request.Camera.PictureHeight)),
            ViewAtFlow = FieldOfView.InPlane(point.FlowScale, (request.Camera.PictureWidth, request.Camera.PictureHeight)),
            Magnification = point.Magnification,
            PixelsPerRadian = point.PixelsPerRadian,
            FlowBlurMetres = point.FlowBlur,
            FlowConfusionMetres = Defocus.CircleOfConfusion(f, number, point.Focus, request.Rig.LensToFlowMetres),
            BoardConfusionMetres = point.BoardConfusion,
            DepthOfField = (DepthOfField.Near(f, number, pitch, point.Focus), DepthOfField.Far(f, number, pitch, point.Focus)),
            FocusMetres = point.Focus,
            DiffractionSpotMetres = point.Spot,
            DotMetres = point.Dot,
            DotRangeMetres = (DotImage.DiscFor(SmallDotPixels, point.BlurPixels) * point.BoardScale, DotImage.DiscFor(LargeDotPixels, point.BlurPixels) * point.BoardScale),
            RecommendedDotMetres = point.RecommendedDot,
            DotImagePixels = DotImage.Diameter(disc, 0, point.BlurPixels),
            DotsPerWindow = request.Board.Coverage / (Math.PI * disc * disc / 4) * request.Displacement.WindowPixels * request.Displacement.WindowPixels,
            HalfResponseWavelengthMetres = PlanResponse.Wavelength(context, point.FlowScale, point.FlowBlur, 0.5),
            NineTenthsResponseWavelengthMetres = PlanResponse.Wavelength(context, point.FlowScale, point.FlowBlur, 0.9),
            NoisePixels = point.Error.Sigma,
            NoiseBoundPixels = point.Error.Bound,
            MeanNoisePixels = point.MeanNoise,
            SmallestGradient = perSigma * point.Error.Sigma,
            SmallestMeanGradient = perSigma * point.MeanNoise,
            SmallestPlumeKelvin = SmallestPlume(context, point, point.Error.Sigma),
            SmallestMeanPlumeKelvin = SmallestPlume(context, point, point.MeanNoise),
            Flow = context.Flow is { } flow ? Predict(point, flow, motion) : null,
            VibrationSmearPixels = motion.Smear,
            VibrationAttenuation = motion.Attenuation,
            VibrationPixels = motion.Sigma,
            RowSkewPixels = motion.Skew,
            PeriodsPerReadout = motion.PeriodsPerReadout,
            RecommendedFNumber = advice.FNumber,
            RecommendedExposureSeconds = advice.ForVibration,
            FreezingExposureSeconds = advice.ForFlow,
            RecommendedFocusMetres = point.BoardDistance,
            LightChangeStops = advice.LightChangeStops(request),
            Warnings = [],
        };
        cancellationToken.ThrowIfCancellationRequested();
        return result with { Warnings = PlanWarnings.Of(result, context, point, advice) };
    }

    /// <summary>Verdict on a ratio of signal to noise.</summary>
    /// <param name="ratio">Measured displacement over its standard deviation.</param>
    public static Detectability Verdict(double ratio) =>
        ratio < Detected ? Detectability.Hopeless : ratio < Quantified ? Detectability.Marginal : Detectability.Good;

    private static FlowPrediction Predict(PlanPoint point, FlowOptics flow, PlanMotion motion)
    {
        double displacement = flow.PeakRadians * point.PixelsPerRadian;
        double mean = point.Measured / point.MeanNoise;
        return new FlowPrediction
        {
            Description = flow.Description,
            Source = flow.Source,
            DeflectionRadians = flow.PeakRadians,
            Density = flow.Density,
            Temperature = flow.Temperature,
            SizeMetres = flow.SizeMetres,
            DisplacementPixels = displacement,
            Response = point.Response,
            StrainPerPixel = displacement * PlanResponse.LargestSlope(flow, point.FlowScale, point.FlowBlur) * point.FlowScale / flow.SizeMetres,
            SignalToNoise = point.SignalToNoise,
            MeanSignalToNoise = mean,
            OneFrame = Verdict(point.SignalToNoise),
            Mean = Verdict(mean),
            SmearPixels = motion.FlowSmear,
        };
    }

    /// <summary>Temperature difference of a round column, wide against window and blur, whose largest displacement is three standard deviations: K rho0 (1 - T0 / T) 1.52035 px/rad / n0 = 3 sigma.</summary>
    private static double? SmallestPlume(PlanContext context, PlanPoint point, double sigma)
    {
        if (!context.HasTemperature || context.Gas.AmbientTemperature is not double ambient)
            return null;
        double share = Detected * sigma * context.Gas.AmbientIndex / (point.PixelsPerRadian * RoundProfile.GaussianPeak * context.Gas.FlowGladstoneDale * context.Gas.AmbientDensity);
        return share < 1 ? ambient * share / (1 - share) : null;
    }
}
