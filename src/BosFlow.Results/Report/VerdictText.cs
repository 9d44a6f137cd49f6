namespace BosFlow.Results.Report;

/// <summary>A verdict in plain words.</summary>
internal static class VerdictText
{
    private const double Clear = 10;
    private const double Faint = 3;

    public static (string Headline, string Class, IReadOnlyList<string> Sentences) Of(Verdict verdict)
    {
        List<string> sentences = [Frames(verdict)];
        if (verdict.FramesMeasured == 0)
            return ("No frame could be measured", "bad", sentences);
        sentences.Add(Noise(verdict));
        sentences.Add($"Peak signal (99th percentile of the mean displacement's length): {WithGradient(verdict, verdict.PeakPixels)}.");
        if (!double.IsFinite(verdict.SignalToNoise))
            return ("Measured; the noise is not known", "fair", sentences);
        sentences.Add($"That is {Figures.Text(verdict.SignalToNoise)} times the noise floor of a single frame.");
        return verdict.SignalToNoise switch
        {
            >= Clear => ("A clear signal", verdict.FramesMeasured == verdict.FramesAsked ? "good" : "fair", sentences),
            >= Faint => ("A faint signal: look at the noise before you trust details", "fair", sentences),
            _ => ("No signal stands out of the noise of a single frame", "bad", sentences),
        };
    }

    private static string Frames(Verdict verdict)
    {
        int failed = verdict.FramesAsked - verdict.FramesMeasured - verdict.FramesRejected;
        string rejected = verdict.FramesRejected > 0 ? $" {verdict.FramesRejected} left out for repetition, blur or shake;" : "";
        return verdict.FramesAsked == verdict.FramesMeasured
            ? $"All {Figures.Count(verdict.FramesAsked, "frame was", "frames were")} measured.".Replace("All 1 frame was", "The one frame was", StringComparison.Ordinal)
            : $"{verdict.FramesMeasured} of {Figures.Count(verdict.FramesAsked, "frame was", "frames were")} measured;{rejected} {failed} could not be (listed below with the reason).";
    }

    private static string Noise(Verdict verdict) => double.IsFinite(verdict.NoiseFloor)
        ? $"Median noise floor of a frame on the undisturbed region: {Figures.Text(verdict.NoiseFloorU)} px in u, {Figures.Text(verdict.NoiseFloorV)} px in v; together {WithGradient(verdict, verdict.NoiseFloor)}."
        : "The noise floor is not known, because no region without flow could be measured.";

    private static string WithGradient(Verdict verdict, double pixels) => verdict.DensityGradientPathPerPixel is { } factor
        ? $"{Figures.Text(pixels)} px, or {Figures.Text(pixels * factor)} kg m⁻³ of path-integrated density gradient"
        : $"{Figures.Text(pixels)} px";
}
