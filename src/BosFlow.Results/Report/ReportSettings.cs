using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Results.Report;

/// <summary>The settings of a run as lines of a table: what, value with unit.</summary>
internal static class ReportSettings
{
    public static IEnumerable<IReadOnlyList<string>> Rows(RunSummary summary)
    {
        ExperimentCase c = summary.Case;
        yield return ["Footage", summary.Footage.Description];
        yield return ["Size of a frame", $"{summary.Reference.Image.Width} × {summary.Reference.Image.Height} px"];
        if (c.Footage.FrameRateHz is { } rate)
            yield return ["Frame rate, as given", $"{Figures.Exact(rate)} Hz"];
        yield return ["Frames left out", $"{(c.Footage.SkipRepeats ? "those that repeat the picture before, " : "")}those with dots more than {Figures.Exact(c.Footage.BlurLimit)} times as wide as in the reference, and those shifted beyond {c.Registration.LargestShiftPixels} px"];
        yield return ["Reference picture", $"{summary.Reference.Description} ({Figures.Count(summary.Reference.FrameCount, "frame", "frames")})"];
        foreach (BoardDriftFinding drift in summary.Reference.Drift)
            yield return [$"Drift of the board until the {drift.Description}", $"{Figures.Text(drift.RmsPixels)} px RMS, up to {Figures.Text(drift.LargestPixels)} px (noise alone: {Figures.Text(drift.NoisePixels)} px), {(drift.IsRemoved ? "taken out in proportion to time" : "left in")}"];
        if (c.Lens is { } lens)
            yield return ["Lens", $"{c.LensFile}: {(lens.Kind == LensKind.Fisheye ? "fisheye" : "pinhole with radial and tangential terms")}, focal length {Figures.Text(Math.Sqrt(lens.FocalX * lens.FocalY))} px; vectors and their places are those of the ideal picture, as are x and y in all results"];
        yield return ["Region", Region(c)];
        yield return ["Motion taken out", Motion(c.Registration.Motion)];
        if (Readout(c.Registration) is { } readout)
            yield return ["Readout of the rows", readout];
        foreach (IReadOnlyList<string> row in Displacement(c.Displacement).Concat(Bias(summary.Sampling)))
            yield return row;
        foreach (IReadOnlyList<string> row in ReportRigSettings.Rows(c, summary.Scale))
            yield return row;
    }

    public static string Motion(MotionModel model) => model switch
    {
        MotionModel.None => "none",
        MotionModel.Shift => "shift",
        MotionModel.Rigid => "shift and rotation",
        MotionModel.Similarity => "shift, rotation and scale",
        MotionModel.Homography => "plane-to-plane projection (homography)",
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, null),
    };

    /// <summary>The readout time and what the motion of the rows rests on; null where rows are read at once.</summary>
    private static string? Readout(RegistrationSettings r)
    {
        if (r.ReadoutSeconds == 0)
            return null;
        string how = r.ReadoutSigmaSeconds is { } sigma ? $" \u00b1 {Figures.Text(sigma * 1e3)} ms, found from the shake of the footage" : ", as given";
        return $"{Figures.Exact(r.ReadoutSeconds * 1e3)} ms{how}; each row has a motion of its own, smooth between {Figures.Count(r.RowIntervals + 1, "knot", "knots")}";
    }

    private static string Region(ExperimentCase c)
    {
        string area = c.Region.Interest is { } r ? $"{r.Width} × {r.Height} px from ({r.X}, {r.Y})" : "the whole picture";
        return $"{area}; {Figures.Count(c.Region.Exclude.Count, "polygon", "polygons")} masked; {(c.Region.Flow.Count == 0 ? "no flow region given" : $"flow within {Figures.Count(c.Region.Flow.Count, "polygon", "polygons")}")}";
    }

    private static IEnumerable<IReadOnlyList<string>> Displacement(DisplacementSettings d)
    {
        yield return ["Interrogation window", $"{d.WindowPixels} × {d.WindowPixels} px, {(d.Weighting == WindowWeighting.Gaussian ? "Gaussian weighting" : "equal weights")}{(d.Windows == WindowSizing.Adaptive ? "; half the side where the displacement is steep" : "")}{Shape(d.Shape)}"];
        yield return ["Distance between vectors", $"{d.SpacingPixels} px (overlap {Figures.Text(100.0 * Math.Max(0, d.WindowPixels - d.SpacingPixels) / d.WindowPixels)} %)"];
        yield return ["Passes", $"coarse pass with {d.CoarseWindowPixels} px windows{(d.CoarseOverlap == CoarseOverlap.Quarter ? " that overlap by a quarter" : "")}, then {d.Passes} with image deformation{(d.LastPass == Sampling.WhereMoved ? ", the last one only where the displacement had moved" : "")}"];
        yield return ["Sub-pixel shift", $"{SubPixel(d.SubPixel)}; B-spline interpolation of order {(int)d.Interpolation}"];
        yield return ["Smoothings of the predictor between passes", $"{d.PredictorSmoothings} (the result itself is not smoothed)"];
        yield return ["Lowest correlation", Figures.Exact(d.LowestCorrelation)];
        yield return ["Outlier test", $"normalised median, threshold {Figures.Exact(d.OutlierThreshold)}, noise {Figures.Exact(d.OutlierNoisePixels)} px; outliers {(d.ReplaceOutliers ? "replaced by the median of their neighbours and flagged" : "left out and flagged")}"];
    }

    private static IEnumerable<IReadOnlyList<string>> Bias(SamplingFacts? sampling)
    {
        if (sampling is null)
            yield break;
        bool isTaken = sampling.BiasTakenOffU != 0 || sampling.BiasTakenOffV != 0;
        string taken = isTaken ? $"{Figures.Text(sampling.BiasTakenOffU)} px in u and {Figures.Text(sampling.BiasTakenOffV)} px in v, told from the spectrum of the reference, times the sine of its fraction of a pixel are taken off"
            : sampling.BiasLeft == 0 ? "measured in every frame with the jointly fitted reference, and taken off" : "not told from the reference, nothing is taken off";
        yield return ["Bias of interpolation", sampling.BiasLeft == 0 ? taken : $"{taken}; {Figures.Text(sampling.BiasLeft)} px (amplitude) stay and are part of sigma"];
    }

    private static string Shape(WindowShape shape) => shape switch
    {
        WindowShape.Affine => "; a shift with its first derivatives within each",
        WindowShape.Quadratic => "; a polynomial of second degree within each, all of one side",
        _ => "",
    };

    public static string SubPixel(SubPixelMethod method) => method == SubPixelMethod.LeastSquares
        ? "least-squares matching of grey levels with gain and offset a window"
        : "three-point Gaussian fit of the correlation peak";
}
