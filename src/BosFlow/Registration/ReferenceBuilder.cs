using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>
/// Makes the reference picture: one frame as it is, or the mean, the median or the joint fit of several, each aligned to the first and interpolated once.
/// </summary>
/// <remarks>
/// The mean keeps one sum a pixel, whatever the number of frames. The median keeps the aligned frames, the joint fit the recorded ones, in at most
/// <see cref="KeptBytes"/> of memory. The same frames give the same bits, whatever the number of threads.
/// </remarks>
public sealed class ReferenceBuilder
{
    /// <summary>Memory that the frames of a median or a joint fit may take, bytes.</summary>
    public const long KeptBytes = 768L << 20;

    private readonly RegistrationSettings registration;
    private readonly ReferenceCombination combination;
    private readonly int threads;
    private readonly long keptBytes;

    /// <summary>Prepares a builder.</summary>
    /// <param name="registration">Motion between the frames; with None they are combined as they are.</param>
    /// <param name="combination">How several frames become one.</param>
    /// <param name="threads">Threads that interpolate rows, at least 1.</param>
    /// <param name="keptBytes">Memory that the frames of a median or a joint fit may take, bytes; three frames are always kept.</param>
    public ReferenceBuilder(RegistrationSettings registration, ReferenceCombination combination, int threads, long keptBytes = KeptBytes)
    {
        ArgumentNullException.ThrowIfNull(registration);
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        this.registration = registration;
        this.combination = combination;
        this.threads = threads;
        this.keptBytes = keptBytes;
    }

    /// <summary>Makes the picture.</summary>
    /// <param name="source">The frames; read once, one at a time.</param>
    /// <param name="region">Masks of the footage's size, which the frames must have too.</param>
    /// <param name="cancellationToken">Stops between two frames and within one.</param>
    /// <exception cref="InputDataException">No frame can be used, or one has another size.</exception>
    public Reference Build(ReferenceSource source, RegionMask region, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(region);
        var leftOut = new List<string>();
        GrayImage? first = null;
        IFrameCombination? combined = null;
        FrameAligner? aligner = null;
        int seen = 0;
        var rows = new List<RowMotion>();
        foreach (Frame frame in source.Frames)
        {
            cancellationToken.ThrowIfCancellationRequested();
            seen++;
            string? failure = ReferenceFrameCheck.Failure(frame, region.Measurable);
            if (failure is null && first is null)
            {
                first = frame.Image!;
                continue;
            }

            if (failure is null)
            {
                combined ??= Start(first!, cancellationToken);
                aligner ??= new FrameAligner(first!, region.Undisturbed, registration, threads, cancellationToken);
                AlignedFrame? aligned = aligner.Align(GrayLevels.Match(frame.Image!, first!).Image, out failure);
                if (aligned is not null)
                    combined.Add(aligned);
                if (aligned is not null && LensedMotion.ToIdeal(aligned.Motion) is RowMotion motion)
                    rows.Add(motion);
            }

            if (failure is not null)
                leftOut.Add($"{frame.Source}: {failure}");
        }

        if (first is null)
            throw new InputDataException(NothingUsable(source, leftOut));
        GrayImage picture = combined is null ? first : new GrayImage(first.Width, first.Height, combined.Combine(), first.WhiteLevel);
        int count = combined?.FrameCount ?? 1;
        return new Reference(picture, count, Description(source, count), source.Files, Warnings(source, seen, leftOut, count, combined?.Warning))
        {
            MeanRows = RowMotion.Mean(rows, rows.Count + 1),
            Underlying = combined?.Underlying,
        };
    }

    private IFrameCombination Start(GrayImage first, CancellationToken cancellationToken)
    {
        IFrameCombination started = combination switch
        {
            ReferenceCombination.Mean => new MeanCombination(first.Pixels.Length),
            ReferenceCombination.Median => new MedianCombination(first.Pixels.Length, keptBytes),
            _ => new JointCombination(first, keptBytes, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancellationToken }),
        };
        started.Add(AlignedFrame.AsItIs(first));
        return started;
    }

    private string Description(ReferenceSource source, int count)
    {
        if (count == 1)
            return FormattableString.Invariant($"One frame: {source.Description}");
        string how = combination switch
        {
            ReferenceCombination.Mean => "Mean",
            ReferenceCombination.Median => "Median",
            _ => "Joint fit",
        };
        string aligned = registration.Motion == MotionModel.None ? "as they are" : "aligned to the first";
        return FormattableString.Invariant($"{how} of {count} frames {aligned}: {source.Description}");
    }

    private List<string> Warnings(ReferenceSource source, int seen, List<string> leftOut, int count, string? combinationWarning)
    {
        var warnings = new List<string>();
        if (source.WholeClip)
            warnings.Add("No flow-off frames were given, so the reference is made of the measured frames themselves: the mean flow is part of the reference, and only departures from the mean are seen; give flow-off frames ([reference] image or use) to see all of it.");
        if (leftOut.Count > 0)
            warnings.Add(FormattableString.Invariant($"{leftOut.Count} of {seen} reference frames were left out, first {leftOut[0]}"));
        if (combinationWarning is not null)
            warnings.Add(combinationWarning);
        if (count > 1 && registration.Motion == MotionModel.None)
            warnings.Add("The reference frames were combined without alignment (registration is set to none): any shake among them blurs the reference; set registration.motion if the camera or the board moved.");
        return warnings;
    }

    private static string NothingUsable(ReferenceSource source, List<string> leftOut) => leftOut.Count == 0
        ? $"There is no reference frame ({source.Description}): name a reference picture or flow-off frames."
        : FormattableString.Invariant($"None of the {leftOut.Count} reference frames can be used ({source.Description}); first {leftOut[0]}");
}
