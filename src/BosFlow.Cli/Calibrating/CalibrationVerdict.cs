using BosFlow.Camera;

namespace BosFlow.Cli.Calibrating;

/// <summary>Whether a calibration may be used, and what should be better.</summary>
/// <param name="Refusals">Why it may not be used, one sentence each; empty where it may.</param>
/// <param name="Warnings">What should be better, one sentence each.</param>
internal sealed record CalibrationVerdict(IReadOnlyList<string> Refusals, IReadOnlyList<string> Warnings)
{
    // Common practice, no source: a sharp target gives 0.02 to 0.3 px; beyond 1 px something else than noise is at work.
    private const double LargestRms = 1;
    private const double PoorRms = 0.5;
    private const int FewViews = 8;
    private const double LeastTurnDegrees = 5;
    private const double GoodTurnDegrees = 20;
    private const double LeastCoverage = 0.3;
    private const double LargestFocalError = 0.02;

    /// <summary>Judges a calibration.</summary>
    /// <param name="calibration">The calibration.</param>
    public static CalibrationVerdict Of(LensCalibration calibration)
    {
        List<string> refusals = [];
        List<string> warnings = [];
        double turn = double.RadiansToDegrees(calibration.LargestTurn);
        double focalError = calibration.StandardUncertainty.FocalX / calibration.Lens.FocalX;
        if (!(calibration.Rms <= LargestRms))
            refusals.Add(FormattableString.Invariant($"The points miss by {calibration.Rms:0.00} px RMS, more than {LargestRms} px: check that the target is flat and its numbers right, take sharper pictures, or try the other --model."));
        else if (calibration.Rms > PoorRms)
            warnings.Add(FormattableString.Invariant($"The points miss by {calibration.Rms:0.00} px RMS, where a flat target in sharp pictures gives less than {PoorRms} px: check that the target is flat and the pictures are sharp."));
        if (!(turn >= LeastTurnDegrees))
            refusals.Add(FormattableString.Invariant($"The target is turned by {turn:0.0} degrees at most from picture to picture, so that the focal length cannot be told from the distance: take pictures with the target tilted by 20 to 45 degrees to all sides."));
        else if (turn < GoodTurnDegrees)
            warnings.Add(FormattableString.Invariant($"The target is turned by {turn:0} degrees at most from picture to picture: take pictures with the target tilted by 20 to 45 degrees to all sides, which makes the focal length surer."));
        if (!(focalError <= LargestFocalError))
            refusals.Add(FormattableString.Invariant($"The focal length is uncertain by {100 * focalError:0.0} %, more than {100 * LargestFocalError:0} %: take more pictures with the target tilted and near."));
        if (calibration.Coverage < LeastCoverage)
            refusals.Add(FormattableString.Invariant($"Points were seen in {100 * calibration.Coverage:0} % of the picture only: bring the target to every part of it."));
        if (calibration.UncoveredCorners.Count > 0)
            warnings.Add($"No point was seen near the {string.Join(", ", calibration.UncoveredCorners)} corner of the picture, where the distortion is largest: take pictures with the target there.");
        if (calibration.Views.Count < FewViews)
            warnings.Add(FormattableString.Invariant($"Only {calibration.Views.Count} pictures serve: take {FewViews} to 20 for a lens that can be relied on."));
        return new CalibrationVerdict(refusals, warnings);
    }
}
