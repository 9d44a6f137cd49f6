using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>What the user should know of a whole run, in plain words.</summary>
internal static class RunWarnings
{
    private const double NoiseFloorJump = 2;
    private const double SmallestJumpPixels = 0.01;
    private const double SmallestDriftPixels = 0.005; // what the bias of interpolation may leave of two means
    private const double LowValidFraction = 0.5;
    private const double SaturatedFraction = 0.05;
    private const double LargeSigmaFactor = 1.3; // judgement: less hardly changes what a reader concludes
    private const double SearchLimitShare = 0.9;

    /// <summary>Collects the warnings, those that touch everything first.</summary>
    /// <param name="request">The run.</param>
    /// <param name="reference">The reference picture.</param>
    /// <param name="estimatorUnusable">Why no motion could be estimated from the reference; null where it could.</param>
    /// <param name="undisturbedVectors">Number of nodes that may serve for registration.</param>
    /// <param name="motionRemarks">What the undisturbed region cannot tell of the motion.</param>
    /// <param name="records">All frames, in order.</param>
    public static IReadOnlyList<string> Collect(
        RunRequest request, Reference reference, string? estimatorUnusable, int undisturbedVectors, IReadOnlyList<string> motionRemarks, IReadOnlyList<FrameRecord> records)
    {
        var warnings = new List<string>();
        warnings.AddRange(request.Footage.Info.Warnings);
        warnings.AddRange(reference.Warnings);
        AddDrift(warnings, reference);
        AddSharedFrames(warnings, request);
        AddRegistration(warnings, request.Case, estimatorUnusable, undisturbedVectors);
        warnings.AddRange(motionRemarks);
        if (request.Case.Rig is null)
            warnings.Add("The case has no [rig]: displacements in px are given, but no density gradient; give the distances to have it.");
        else
            warnings.AddRange(GasProperties.Of(request.Case.Gas).Notes);
        OpticalScale? scale = request.Case.Rig is null ? null : OpticalScaling.From(request.Case.Rig, request.Case.Gas);
        warnings.AddRange(BoardImage.Warnings(request.Board, scale, request.Case.Displacement.WindowPixels, request.BoardScale));
        AddFailures(warnings, records);
        AddRejections(warnings, records);
        FrameRecord[] measured = [.. records.Where(record => record.IsMeasured)];
        AddNoiseJumps(warnings, measured);
        AddSigmaFactors(warnings, measured);
        AddSearchLimit(warnings, request, measured);
        AddFrames(warnings, measured, record => record.ValidFraction < LowValidFraction, "less than half of the vectors could be measured; look at the map of valid vectors for glare, blur or hidden dots");
        AddFrames(warnings, measured, record => record.SaturatedFraction > SaturatedFraction, "more than 5 % of the pixels are saturated; expose less");
        AddRemarks(warnings, measured);
        return warnings;
    }

    private static void AddSharedFrames(List<string> warnings, RunRequest request)
    {
        if (request.Case.Reference.Images.Count > 0 || request.Case.Reference.Use is null)
            return;
        int all = request.Footage.Info.FrameCount;
        HashSet<int> reference = [.. FrameSelection.Parse(request.Case.Reference.Use, all, "reference.use"), .. request.Case.Reference.UseLater.SelectMany(range => FrameSelection.Parse(range, all, "reference.use_later"))];
        int shared = request.FrameIndices.Count(reference.Contains);
        if (shared > 0)
        {
            warnings.Add(FormattableString.Invariant(
                $"{shared} of {request.FrameIndices.Count} measured frames are also among the {reference.Count} frames of the reference: their noise is partly in both pictures, so that their noise floor reads too low; use other frames for the reference (reference.use)."));
        }
    }

    private static void AddDrift(List<string> warnings, Reference reference)
    {
        foreach (BoardDriftFinding drift in reference.Drift.Where(drift => drift.RmsPixels > Math.Max(SmallestDriftPixels, NoiseFloorJump * drift.NoisePixels)))
        {
            string done = drift.IsRemoved
                ? "it was taken out in proportion to time; between the stretches that is an assumption, so give more of them (reference.use_later) if it matters."
                : "it was left in (reference.drift = \"report\"); set drift = \"remove\" to take it out in proportion to time.";
            warnings.Add(FormattableString.Invariant($"The board drifted against the camera until the {drift.Description}, by {drift.RmsPixels:0.000} px RMS and up to {drift.LargestPixels:0.000} px beyond the motion of each frame (noise alone: {drift.NoisePixels:0.000} px): {done}"));
        }
    }

    private static void AddRemarks(List<string> warnings, FrameRecord[] measured)
    {
        FrameRecord? first = measured.FirstOrDefault(record => record.Warnings.Count > 0);
        if (first is not null)
            AddFrames(warnings, measured, record => record.Warnings.Count > 0, $"there is something to note, in frame {first.Index} for example: {first.Warnings[0].TrimEnd('.')}");
    }

    private static void AddRegistration(List<string> warnings, ExperimentCase experiment, string? estimatorUnusable, int undisturbedVectors)
    {
        if (experiment.Registration.Motion == MotionModel.None)
        {
            string floor = experiment.Region.Flow.Count > 0 && undisturbedVectors > 0 ? " and of the noise floor" : ", and the noise floor is unknown, as the case does not say which part is free of flow";
            warnings.Add($"No motion was taken out (registration is set to none): any shake of camera or board is part of the result{floor}; set registration.motion where they were not at rest.");
            return;
        }

        if (estimatorUnusable is not null)
            warnings.Add(estimatorUnusable);
        if (undisturbedVectors == 0)
            warnings.Add("No vector lies wholly in the undisturbed region: the noise floor is unknown, and no motion was fitted to the measured vectors; leave more of the picture outside the flow polygons, or use smaller windows.");
        else if (experiment.Region.Flow.Count == 0)
            warnings.Add("The case draws no flow region: the motion and the noise floor rest on the vectors that agree with each other, which is right only while the flow covers less than half of the picture; give region.flow to be sure, and to have sigma compared with what scatters outside it.");
    }

    private static void AddFailures(List<string> warnings, IReadOnlyList<FrameRecord> records)
    {
        FrameRecord[] failed = [.. records.Where(record => record.Failure is not null)];
        if (failed.Length > 0)
            warnings.Add(FormattableString.Invariant($"{Frames(failed, records.Count)} could not be measured, first frame {failed[0].Index}: {failed[0].Failure}"));
    }

    private static void AddRejections(List<string> warnings, IReadOnlyList<FrameRecord> records)
    {
        FrameRecord[] rejected = [.. records.Where(record => record.Rejection is not null)];
        if (rejected.Length > 0)
            warnings.Add(FormattableString.Invariant($"{Frames(rejected, records.Count)} were left out, first frame {rejected[0].Index}: {rejected[0].Rejection}"));
    }

    private static void AddNoiseJumps(List<string> warnings, FrameRecord[] measured)
    {
        double median = RunMedian.Of(measured.Select(NoiseFloor));
        double limit = Math.Max(NoiseFloorJump * median, median + SmallestJumpPixels);
        FrameRecord[] noisy = [.. measured.Where(record => NoiseFloor(record) > limit)];
        if (noisy.Length > 0)
        {
            warnings.Add(FormattableString.Invariant(
                $"The noise floor of {Frames(noisy, measured.Length)} is far above the median of {median:0.0000} px, worst {noisy.Max(NoiseFloor):0.0000} px: shake, blur or a passing disturbance there, so look at these frames or leave them out (footage.use)."));
        }
    }

    private static void AddSigmaFactors(List<string> warnings, FrameRecord[] measured)
    {
        double median = RunMedian.Of(measured.Select(SigmaFactor).Where(factor => factor > LargeSigmaFactor));
        AddFrames(warnings, measured, record => SigmaFactor(record) > LargeSigmaFactor, FormattableString.Invariant($"displacement scatters more outside the flow region than noise explains, at the median by a factor of {median:0.0}, and sigma was multiplied by it: compression of the video, shake that the motion model does not describe, or air that moves outside too; record video at a higher rate, or widen the region if flow lies beyond it"));
    }

    private static void AddSearchLimit(List<string> warnings, RunRequest request, FrameRecord[] measured)
    {
        int largest = request.Case.Registration.LargestShiftPixels;
        FootageInfo info = request.Footage.Info;
        FrameRecord[] far = [.. measured.Where(record => LargestDisplacement(record.Motion, info.Width, info.Height) > SearchLimitShare * largest)];
        if (far.Length > 0)
        {
            warnings.Add(FormattableString.Invariant(
                $"The background moved nearly as far as is searched for ({largest} px) in {Frames(far, measured.Length)}; raise registration.largest_shift_px if frames are lost."));
        }
    }

    private static void AddFrames(List<string> warnings, FrameRecord[] measured, Func<FrameRecord, bool> concerns, string what)
    {
        FrameRecord[] frames = [.. measured.Where(concerns)];
        if (frames.Length > 0)
            warnings.Add(FormattableString.Invariant($"In {Frames(frames, measured.Length)} {what}."));
    }

    private static string Frames(FrameRecord[] frames, int total)
    {
        const int Named = 5;
        string numbers = string.Join(", ", frames.Take(Named).Select(frame => FormattableString.Invariant($"{frame.Index}")));
        string more = frames.Length > Named ? ", ..." : string.Empty;
        return FormattableString.Invariant($"{frames.Length} of {total} frames ({numbers}{more})");
    }

    private static double SigmaFactor(FrameRecord record) => Math.Max(record.SigmaFactorU, record.SigmaFactorV);

    private static double NoiseFloor(FrameRecord record) => Math.Max(record.NoiseFloorU, record.NoiseFloorV);

    private static double LargestDisplacement(PlanarMotion motion, int width, int height)
    {
        double largest = 0;
        foreach ((double x, double y) in new (double, double)[] { (0, 0), (width - 1, 0), (0, height - 1), (width - 1, height - 1) })
        {
            (double u, double v) = motion.DisplacementAt(x, y);
            largest = Math.Max(largest, Math.Max(Math.Abs(u), Math.Abs(v)));
        }

        return largest;
    }
}
