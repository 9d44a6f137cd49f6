using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>The stages joined to a run: reference, frames, summary. Results do not depend on the number of threads.</summary>
public static class RunPipeline
{
    /// <summary>Carries out a run, or goes on with one that was interrupted.</summary>
    /// <param name="request">What to do.</param>
    /// <param name="stages">The stages to use.</param>
    /// <param name="progress">Told after every frame; null = nobody listens.</param>
    /// <param name="cancellationToken">Interrupts the run; frames that are finished stay in the store.</param>
    /// <returns>Counts, failed frames, noise floor, warnings.</returns>
    /// <exception cref="InputDataException">Reference or region cannot be used.</exception>
    /// <exception cref="MissingFramesException">The frames were only to be gathered, and some are missing.</exception>
    /// <exception cref="RunFailedException">No frame could be measured; no summary is written.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static RunOutcome Run(RunRequest request, RunStages stages, IProgress<RunProgress>? progress, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(stages);
        Check(request);
        FootageInfo info = request.Footage.Info;
        request = request with { FrameIndices = request.Part.Frames(request.FrameIndices) };
        int total = request.FrameIndices.Count;
        RegionMask region = RegionMask.Build(request.Case.Region, info.Width, info.Height);
        LensModel? lens = request.Case.Lens is { } parameters ? new LensModel(parameters) : null;
        RegistrationSettings registration = request.Case.Registration with { Lens = lens };
        DensityStep.Check(request.Case, info);
        OpticalScale? scale = request.Case.Rig is null ? null : OpticalScaling.From(request.Case.Rig, request.Case.Gas);

        int[] pending = Pending(request, stages.PlanGrid(info.Width, info.Height, request.Case.Displacement));
        if (pending.Length > 0 && !request.Part.Measures)
            throw new MissingFramesException(pending);
        if (pending.Length == 0 && !request.Part.Gathers)
            return OfShard(request, total, progress);

        progress?.Report(new RunProgress(RunStep.Reference, 0, request.Reference.FrameCount, 0));
        ReferenceSource counted = request.Reference with { Frames = Counted(request.Reference, progress) };
        Reference reference = stages.BuildReference(request with { Reference = counted }, region, cancellationToken);
        if (reference.Image.Width != info.Width || reference.Image.Height != info.Height)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"The reference is {reference.Image.Width} x {reference.Image.Height} px and the footage {info.Width} x {info.Height} px: both must come from the same camera at the same size."));
        }

        IMotionEstimator estimator = stages.CreateEstimator(reference.Image, region.Undisturbed, registration);
        IDisplacementStage engine = stages.CreateEngine(reference, region.Measurable, request.Case.Displacement);
        PixelMask undisturbed = lens is null ? region.Undisturbed : IdealPicture.Of(region.Undisturbed, lens);
        PixelMask shown = lens is null ? region.Measurable : IdealPicture.Of(region.Measurable, lens);
        LensCorrection? correction = lens is null ? null : Correction(lens, engine.Grid, request.Case.Displacement);
        var remover = new BackgroundRemover(
            engine.Grid, request.Case.Displacement.WindowPixels, undisturbed, registration, request.Case.Region.Flow.Count > 0, reference.MeanRows);
        var screen = new FrameScreen(reference.Image, region.Undisturbed, request.Case, settings => stages.CreateEstimator(reference.Image, region.Undisturbed, settings with { Lens = lens }));
        var processor = new FrameProcessor(reference.Image, region.Measurable, screen, estimator, engine, remover, correction, shown);
        (BoardDrift? drift, IReadOnlyList<BoardDriftFinding> findings) = DriftMeasurement.Measure(
            request, reference, source => stages.BuildReference(request with { Reference = source }, region, cancellationToken), processor, engine.Sampling.BiasLeft / Math.Sqrt(2), cancellationToken);
        reference = reference with { Drift = findings };
        if (drift is not null)
            processor = new FrameProcessor(reference.Image, region.Measurable, screen, estimator, engine, remover, correction, shown, drift);

        request.Sources?.CheckAll(cancellationToken);
        new FrameRun(request, new FrameSequence(request.Footage, request.Case.Footage.SkipRepeats), processor, progress).Measure(pending, cancellationToken);

        request.Sources?.CheckAll(cancellationToken);
        if (!request.Part.Gathers)
            return OfShard(request, total - pending.Length, progress: null);

        var common = CommonError.Of(Math.Min(reference.FrameCount, findings.Where(finding => finding.IsRemoved).Select(finding => finding.FrameCount).DefaultIfEmpty(int.MaxValue).Min()), engine.Sampling.BiasLeft);
        GatheredRun gathered = FrameGatherer.Gather(request, engine.Grid, common, cancellationToken);
        IReadOnlyList<FailedFrame> failed = FrameGatherer.Failed(gathered.Records);
        progress?.Report(new RunProgress(RunStep.Summary, total, total, failed.Count));
        // What measuring left behind goes before the pictures of the summary take memory of their own.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        IReadOnlyList<string> warnings =
        [
            .. RunWarnings.Collect(request, reference, estimator.Unusable, remover.UndisturbedCount, remover.Remarks, gathered.Records),
            .. LockingWarning.Of(engine.Sampling.DotPixels ?? double.NaN, gathered.Statistics),
        ];
        Reference shownReference = lens is null ? reference : reference with { Image = IdealPicture.Of(reference.Image, lens) };
        request.Store.WriteSummary(new RunSummary
        {
            Case = request.Case,
            Footage = info,
            Reference = shownReference,
            Statistics = gathered.Statistics,
            Scale = scale,
            BoardScale = request.BoardScale,
            Sampling = engine.Sampling,
            DerivedFields = scale is null ? [] : DerivedFields.From(gathered.Statistics, scale),
            Density = DensityStep.Convert(lens is null ? request : request with { Case = request.Case with { Flow = IdealPicture.Of(request.Case.Flow, lens) } }, gathered, engine.Sampling.BiasLeft, remover.ErrorsOfMean(gathered.Records, common), cancellationToken),
            Frames = gathered.Records,
            Warnings = warnings,
        }, cancellationToken);
        return Outcome(gathered.Records, failed, total - pending.Length, warnings) with { Light = LightVariation.Of(gathered.Records, shownReference.Image) };
    }

    private static LensCorrection Correction(LensModel lens, NodeGrid grid, DisplacementSettings settings) =>
        new(lens, grid, WindowOverlap.Correlation(settings, grid.Spacing));

    private static void Check(RunRequest request)
    {
        FootageInfo info = request.Footage.Info;
        if (request.Case.Lens is { } lens && (lens.Width != info.Width || lens.Height != info.Height))
        {
            throw new InputDataException(FormattableString.Invariant(
                $"The lens was calibrated with pictures of {lens.Width} x {lens.Height} px and the footage has {info.Width} x {info.Height} px: calibrate with the camera's setting of the footage, or remove [camera] lens."));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(request.Options.Threads, 1);
        if (request.FrameIndices.Count == 0)
            throw new InputDataException("No frame is chosen: widen the range of frames to use.");
        int before = -1;
        foreach (int index in request.FrameIndices)
        {
            if (index <= before || index >= request.Footage.Info.FrameCount)
                throw new ArgumentException(FormattableString.Invariant($"Frame numbers must ascend within 0 to {request.Footage.Info.FrameCount - 1}; {index} does not."), nameof(request));
            before = index;
        }
    }

    // A frame is done when the builder asks for the next one.
    private static IEnumerable<Frame> Counted(ReferenceSource source, IProgress<RunProgress>? progress)
    {
        int done = 0;
        foreach (Frame frame in source.Frames)
        {
            yield return frame;
            progress?.Report(new RunProgress(RunStep.Reference, ++done, source.FrameCount, 0));
        }
    }

    // The summary looks at frames of all shards together; a shard only tells which of its own failed.
    private static RunOutcome OfShard(RunRequest request, int resumed, IProgress<RunProgress>? progress)
    {
        FrameRecord[] records = [.. request.FrameIndices.Select(index => FrameRecord.Of(request.Store.ReadFrame(index)))];
        progress?.Report(new RunProgress(RunStep.Frames, records.Length, records.Length, 0));
        return Outcome(records, FrameGatherer.Failed(records), resumed, warnings: []);
    }

    private static int[] Pending(RunRequest request, NodeGrid grid)
    {
        if (request.Options.Force)
            return [.. request.FrameIndices];
        IReadOnlySet<int> finished = request.Store.FinishedFrames(grid);
        return [.. request.FrameIndices.Where(index => !finished.Contains(index))];
    }

    private static RunOutcome Outcome(IReadOnlyList<FrameRecord> records, IReadOnlyList<FailedFrame> failed, int resumed, IReadOnlyList<string> warnings)
    {
        FrameRecord[] measured = [.. records.Where(record => record.IsMeasured)];
        return new RunOutcome
        {
            FramesTotal = records.Count,
            FramesResumed = resumed,
            FailedFrames = failed,
            RejectedFrames = FrameGatherer.Rejected(records),
            NoiseFloorU = RunMedian.Of(measured.Select(record => record.NoiseFloorU)),
            NoiseFloorV = RunMedian.Of(measured.Select(record => record.NoiseFloorV)),
            ValidFraction = RunMedian.Of(measured.Select(record => record.ValidFraction)),
            Warnings = warnings,
        };
    }
}
