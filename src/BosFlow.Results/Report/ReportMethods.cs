using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Results.Report;

/// <summary>The paragraph on methods, from what was really done.</summary>
internal static class ReportMethods
{
    public static IEnumerable<string> Paragraphs(RunSummary summary, string version)
    {
        yield return Measurement(summary, version);
        if (summary.Scale is not null)
            yield return Optics(summary);
        foreach (string paragraph in summary.Density?.Methods ?? [])
            yield return paragraph;
        foreach (string paragraph in UncertaintyScope.Paragraphs(summary))
            yield return paragraph;
    }

    private static string Measurement(RunSummary summary, string version)
    {
        DisplacementSettings d = summary.Case.Displacement;
        string reference = summary.Reference.FrameCount == 1 ? "one reference picture" : $"a reference picture combined from {summary.Reference.FrameCount} frames";
        string registration = summary.Case.Registration.Motion == MotionModel.None
            ? "No motion of the background was taken out."
            : $"Motion of camera and background ({ReportSettings.Motion(summary.Case.Registration.Motion)}) was fitted robustly {(summary.Case.Region.Flow.Count > 0 ? "to the vectors outside the flow region" : "to the whole field")} and subtracted from the displacement; pictures were not resampled for it.";
        return
            $"The displacement of the background pattern between {reference} and {Figures.Count(summary.Frames.Count(f => f.IsMeasured), "frame", "frames")} was measured with BosFlow {version} " +
            $"by windowed cross-correlation: a coarse pass with {d.CoarseWindowPixels} × {d.CoarseWindowPixels} px windows, then {Figures.Count(d.Passes, "pass", "passes")} with image deformation " +
            $"and {d.WindowPixels} × {d.WindowPixels} px windows at a distance of {d.SpacingPixels} px{(d.Windows == WindowSizing.Adaptive ? ", of half the side where their difference from the whole window exceeded what noise explains" : "")}{Shape(d.Shape)}. The remaining shift was found by {ReportSettings.SubPixel(d.SubPixel)}. " +
            $"Vectors were checked by the normalised-median test (Westerweel and Scarano, 2005, doi:10.1007/s00348-005-0016-6) with threshold {Figures.Exact(d.OutlierThreshold)} and noise level {Figures.Exact(d.OutlierNoisePixels)} px" +
            $"{(d.ReplaceOutliers ? "; outliers were replaced by the median of their neighbours and flagged" : "; outliers were left out and flagged")}. {registration} " +
            "The noise floor of a frame is the RMS of the remaining displacement on the undisturbed region. The standard uncertainty (one sigma) of a vector follows from the grey-level differences that remain in its window after matching" +
            $"{Factor(summary)}; " +
            "that of a mean is the larger of what these give and the standard deviation over time divided by the root of the number of frames, with the part that all frames share (noise of the reference, bias of interpolation) added in quadrature. Frames closer in time than the flow's own time scale are not independent: the true uncertainty of their mean is larger.";
    }

    private static string Factor(RunSummary summary)
    {
        double[] factors = [.. summary.Frames.Where(frame => frame.IsMeasured).SelectMany(frame => new[] { frame.SigmaFactorU, frame.SigmaFactorV })];
        return factors.All(factor => factor == 1)
            ? ""
            : $", and was multiplied in each frame and direction by the ratio of what remains on the undisturbed region to it where that exceeded 1 by more than chance (the ratio of Birge, 1932), here by up to {Figures.Text(factors.Max())}";
    }

    private static string Shape(WindowShape shape) => shape switch
    {
        WindowShape.Affine => "; in the last two passes the displacement within a window was fitted by a shift with its first derivatives, and the vector is its value in the middle",
        WindowShape.Quadratic => "; in the last two passes the displacement within a window was fitted by a polynomial of second degree, and the vector is its value in the middle",
        _ => "",
    };

    private static string Optics(RunSummary summary)
    {
        double k = summary.Scale!.GladstoneDaleM3PerKg;
        string path = summary.Scale.DensityGradientPerPixel is null
            ? "Gradients are integrals along the line of sight."
            : "Gradients are integrals along the line of sight, and means over the given path length.";
        return
            "Displacement was turned into deflection angle with the scale in the background plane and the distance from the flow to the background (small angles, thin flow), " +
            $"and into density gradient by the Gladstone-Dale relation n − 1 = Kρ with K = {Figures.Constant(k)} m³ kg⁻¹. {path}";
    }
}
