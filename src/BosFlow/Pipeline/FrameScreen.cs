using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Triage;

namespace BosFlow.Pipeline;

/// <summary>Says which frames are left out though they can be read, and why. Safe to call from several threads.</summary>
internal sealed class FrameScreen
{
    // Beyond four times the range the pictures of most cases have little in common any more, and the search grows with the square.
    private const int WiderSearch = 4;

    private readonly FootageSettings settings;
    private readonly int largestShift;
    private readonly DotWidth dots;
    private readonly double referenceWidth;
    private readonly Lazy<IMotionEstimator> wide;

    /// <summary>Reads the reference.</summary>
    /// <param name="reference">Reference picture.</param>
    /// <param name="undisturbed">Pixels without flow: a hot flow blurs what lies behind it, and is no fault of the frame.</param>
    /// <param name="experiment">The case.</param>
    /// <param name="estimatorOf">Makes a motion estimator.</param>
    public FrameScreen(GrayImage reference, PixelMask undisturbed, ExperimentCase experiment, Func<RegistrationSettings, IMotionEstimator> estimatorOf)
    {
        settings = experiment.Footage;
        largestShift = experiment.Registration.LargestShiftPixels;
        dots = new DotWidth(reference.Width, reference.Height, undisturbed);
        referenceWidth = dots.Of(reference);
        int farthest = Math.Max(largestShift, Math.Min(WiderSearch * largestShift, Math.Min(reference.Width, reference.Height) / 2));
        wide = new Lazy<IMotionEstimator>(() => estimatorOf(experiment.Registration with { LargestShiftPixels = farthest }));
    }

    /// <summary>Why a frame is left out before anything is measured; null where it is not.</summary>
    /// <param name="frame">A frame with a picture.</param>
    public string? Rejection(Frame frame)
    {
        if (frame.RepeatOf is int before)
            return FormattableString.Invariant($"It repeats the picture of frame {before}, pixel by pixel: the recorder or its compression wrote one picture twice (footage.skip_repeats = false measures it).");
        double width = dots.Of(frame.Image!);
        return width > settings.BlurLimit * referenceWidth
            ? FormattableString.Invariant($"It is blurred: its dots are {width:0.0} px wide along the smear, those of the reference {referenceWidth:0.0} px, more than {settings.BlurLimit:0.##} times as wide (raise footage.blur_limit to measure it).")
            : null;
    }

    /// <summary>Why a frame is left out whose motion was not found: it is shifted beyond what is searched for. Null where it is not found farther out either.</summary>
    /// <param name="matched">The picture, in the grey levels of the reference.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    public string? Shaken(GrayImage matched, CancellationToken cancellationToken)
    {
        MotionEstimate found = wide.Value.Estimate(matched, cancellationToken);
        if (wide.Value.Unusable is not null || found.Failure is not null)
            return null;
        (double u, double v) = found.Motion.Planar.DisplacementAt((matched.Width - 1) / 2.0, (matched.Height - 1) / 2.0);
        return Math.Max(Math.Abs(u), Math.Abs(v)) > largestShift
            ? FormattableString.Invariant($"It is shaken too far: shifted by {u:0} px in x and {v:0} px in y, and {largestShift} px are searched (raise registration.largest_shift_px to measure it).")
            : null;
    }
}
