using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>Everything that one frame passes through between footage and store. Safe to call from several threads.</summary>
internal sealed class FrameProcessor
{
    private const double LowValidFraction = 0.5;

    private readonly GrayImage reference;
    private readonly PixelMask measurable;
    private readonly FrameScreen screen;
    private readonly IMotionEstimator estimator;
    private readonly IDisplacementStage engine;
    private readonly BackgroundRemover remover;
    private readonly LensCorrection? lens;
    private readonly PixelMask shown;
    private readonly BoardDrift? drift;
    private readonly ReferenceLight light;

    /// <summary>Joins what a frame passes through.</summary>
    /// <param name="reference">Reference picture.</param>
    /// <param name="measurable">Pixels that may be used, of the pictures as filmed.</param>
    /// <param name="screen">Says which frames are left out.</param>
    /// <param name="estimator">Coarse motion.</param>
    /// <param name="engine">Displacement.</param>
    /// <param name="remover">Takes the background's motion out, in the coordinates of the result.</param>
    /// <param name="lens">Corrects the displacement; null = the lens is taken for ideal.</param>
    /// <param name="shown"><paramref name="measurable"/> in the coordinates of the result.</param>
    /// <param name="drift">Drift of the background that is taken out; null = none.</param>
    public FrameProcessor(
        GrayImage reference, PixelMask measurable, FrameScreen screen, IMotionEstimator estimator, IDisplacementStage engine, BackgroundRemover remover, LensCorrection? lens, PixelMask shown, BoardDrift? drift = null)
    {
        this.drift = drift;
        this.lens = lens;
        this.shown = shown;
        this.reference = reference;
        light = new ReferenceLight(reference, measurable);
        this.measurable = measurable;
        this.screen = screen;
        this.estimator = estimator;
        this.engine = engine;
        this.remover = remover;
    }

    /// <summary>The frame's result. Whatever goes wrong with the frame is in it: only cancellation and lack of memory are thrown.</summary>
    public FrameResult Measure(Frame frame, CancellationToken cancellationToken)
    {
        var failure = new FrameFailure(frame, engine.Grid, shown);
        if (frame.Image is null)
            return failure.Because(frame.Failure ?? "The frame holds no picture.", VectorFlags.OutOfFrame, null);
        FrameQuality? quality = null;
        try
        {
            if (frame.Image.Width != reference.Width || frame.Image.Height != reference.Height)
            {
                return failure.Because(
                    FormattableString.Invariant($"The frame is {frame.Image.Width} x {frame.Image.Height} px, the reference {reference.Width} x {reference.Height} px."),
                    VectorFlags.OutOfFrame, null);
            }

            quality = FrameQuality.Assess(frame.Image, measurable);
            if (quality.Failure is not null)
                return failure.Because(quality.Failure, FrameFailure.FlagOf(quality), quality);
            return screen.Rejection(frame) is { } rejection
                ? failure.LeftOut(rejection, quality)
                : Measure(frame, frame.Image, quality, failure, cancellationToken);
        }
        catch (InputDataException exception)
        {
            return failure.Because(exception.Message, VectorFlags.NotConverged, quality);
        }
        catch (Exception exception) when (exception is not OperationCanceledException and not OutOfMemoryException)
        {
            // One frame that a stage cannot digest must not end a night's run; its reason is kept where the user looks.
            return failure.Because($"The measurement failed: {exception.Message} ({exception.GetType().Name})", VectorFlags.NotConverged, quality);
        }
    }

    /// <summary>Takes back the memory of a result that nobody reads any more.</summary>
    public void Reuse(FrameResult result) => engine.Reuse(result.Field);

    private FrameResult Measure(Frame frame, GrayImage image, FrameQuality quality, FrameFailure failure, CancellationToken cancellationToken)
    {
        (GrayImage matched, string? levelWarning) = GrayLevels.Match(image, reference);
        IPictureMotion predictor = PlanarMotion.Identity;
        if (estimator.Unusable is null)
        {
            MotionEstimate estimate = estimator.Estimate(matched, cancellationToken);
            if (estimate.Failure is not null && screen.Shaken(matched, cancellationToken) is { } shaken)
                return failure.LeftOut(shaken, quality);
            if (estimate.Failure is not null)
                return failure.Because(estimate.Failure, VectorFlags.NotConverged, quality);
            predictor = estimate.Motion;
        }

        cancellationToken.ThrowIfCancellationRequested();
        VectorField total = engine.Measure(matched, predictor, cancellationToken);
        if (lens is not null)
            total = lens.Correct(total, LensedMotion.ToIdeal(predictor));
        if (drift is not null)
            total = drift.TakeOut(total, double.IsFinite(frame.TimeSeconds) ? frame.TimeSeconds : frame.Index);
        double valid = ValidFraction(total);
        if (valid == 0)
            return failure.Because("Not a single vector could be measured: the frame does not show the pattern of the reference, or is blurred or too noisy.", VectorFlags.NotConverged, quality);

        BackgroundRemoval removal = remover.Remove(total, LensedMotion.ToIdeal(predictor));
        var warnings = new List<string>(quality.Warnings);
        if (levelWarning is not null)
            warnings.Add(levelWarning);
        warnings.AddRange(removal.Warnings);
        if (valid < LowValidFraction)
            warnings.Add(FormattableString.Invariant($"Only {valid:P0} of the vectors could be measured; look for glare, blur, shake or hidden dots in this frame."));
        return new FrameResult
        {
            Index = frame.Index,
            TimeSeconds = frame.TimeSeconds,
            Source = frame.Source,
            Field = removal.Field,
            Motion = removal.Motion.Planar,
            Rows = removal.Motion as RowMotion,
            NoiseFloorU = removal.NoiseFloorU,
            NoiseFloorV = removal.NoiseFloorV,
            SigmaFactorU = removal.SigmaFactorU,
            SigmaFactorV = removal.SigmaFactorV,
            ValidFraction = valid,
            MeanLevel = quality.MeanLevel,
            SaturatedFraction = quality.SaturatedFraction,
            Light = Light(matched, predictor.Planar),
            Warnings = warnings,
        };
    }

    private LightComparison Light(GrayImage frame, PlanarMotion motion)
    {
        (double u, double v) = motion.DisplacementAt((frame.Width - 1) / 2.0, (frame.Height - 1) / 2.0);
        return light.Compare(frame, (int)Math.Round(u), (int)Math.Round(v));
    }

    private static double ValidFraction(VectorField field)
    {
        int measurable = 0;
        int measured = 0;
        foreach (VectorFlags flag in field.Flags)
        {
            if ((flag & VectorFlags.Masked) == 0)
                measurable++;
            if (flag == VectorFlags.None)
                measured++;
        }

        return measurable == 0 ? 0 : (double)measured / measurable;
    }
}
