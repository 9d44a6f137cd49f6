using BosFlow.Results.Report;
using BosFlow.Triage;

namespace BosFlow.Results.Triage;

/// <summary>The judgement on a take in words: the same on terminal and page.</summary>
public static class TriageSheet
{
    /// <summary>The verdict in one line.</summary>
    /// <param name="result">The judgement.</param>
    public static string Verdict(TriageResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result switch
        {
            { IsUsable: false } => "Not usable: take it again",
            { Findings.Count: 0 } => "Usable",
            _ => "Usable, with something to change",
        };
    }

    /// <summary>The figures: quantity, value, what it means.</summary>
    /// <param name="result">The judgement.</param>
    public static IReadOnlyList<(string Name, string Value, string Remark)> Rows(TriageResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        TriageMeasures m = result.Measures;
        double rate = 1 / result.Times.IntervalSeconds;
        string folded = double.IsFinite(rate) ? $"as seen at {Figures.Text(rate)} Hz; faster shake is folded to below {Figures.Text(rate / 2)} Hz" : "not known without time stamps";
        return
        [
            ("Sampled", $"{result.Frames.Count} of {result.Info.FrameCount} frames", "short runs of neighbours spread over the take"),
            ("Dot image", $"{Figures.Text(m.DotPixels)} px", "2 to 3 px wanted (e^-2 diameter); without smear " + Figures.Text(m.SharpDotPixels) + " px"),
            ("Dots in a window", Figures.Text(m.DotsPerWindow), $"10 wanted in {result.Request.Displacement.WindowPixels} px; dots that touch count once"),
            ("Pattern", Percent(m.PatternShare), "share of the places looked at that show dots"),
            ("Contrast", Percent(m.Contrast), "of white, 0.5th to 99.5th percentile of the levels"),
            ("Clipped", $"{Percent(m.ClippedHigh)} at white, {Percent(m.ClippedLow)} at black", "share of the pixels"),
            ("Light over time", $"{Percent(m.ExposureRange)} range, {Percent(m.Flicker)} flicker", "of the mean level; flicker is RMS from frame to frame"),
            ("Shake", $"{Figures.Text(m.ShakeRms)} px RMS, {Figures.Text(m.ShakePerFrame)} px a frame", "x and y together"),
            ("Shake frequency", $"{Figures.Text(m.ShakeHertz)} Hz", folded),
            ("Smear", $"{Figures.Text(m.SmearPixels)} px", "while the exposure lasts; half a dot is harmless"),
            ("Rolling shutter", $"{Figures.Text(m.Wobble)} px RMS", $"row by row beyond the whole picture's motion, {Figures.Text(m.WobbleCycles)} swings a picture"),
            ("Jitter of rows", $"{Figures.Text(m.Jitter)} px RMS", $"change of a row's motion from frame to frame; {Figures.Text(m.LeastJitter)} px in the steadiest row; far less there means stabilisation"),
            ("Sharpness pulse", $"{Figures.Text(m.SharpnessPulse)} px\u00b2", "change of a dot's variance from frame to frame; high without shake means stabilisation"),
            ("Missing frames", $"{result.Times.Missing + result.Times.Lost}", "by the time stamps of all frames"),
            ("Repeated frames", Percent(m.RepeatedShare), "of the sampled neighbours"),
            ("Compression", result.Request.BitsPerPixel is double bits ? $"{Figures.Text(bits)} bits a pixel" : "no video", $"steps at block borders {Figures.Text(m.Blockiness)} times those inside"),
            ("Noise floor", $"{Figures.Text(m.NoiseFloor)} px", "one component of one vector, measured by the engine between neighbours; 0.01 to 0.03 px is good"),
            ("Noise floor", result.NoiseGradientPath is double path ? $"{Figures.Text(path)} kg m\u207b\u00b3" : "not known", result.NoiseGradientPath is null ? "give the rig with --case" : "density gradient integrated along the ray"),
            ("Usable", Ranges(result), "between samples it is taken for granted"),
        ];
    }

    /// <summary>The usable parts of the take in words.</summary>
    /// <param name="result">The judgement.</param>
    public static string Ranges(TriageResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.UsableRanges.Count == 0 ? "nothing" : string.Join(", ", result.UsableRanges.Select(range => double.IsFinite(result.Info.TimesSeconds[range.Last])
            ? $"{Figures.Text(result.Info.TimesSeconds[range.First])} to {Figures.Text(result.Info.TimesSeconds[range.Last])} s (frames {range.First} to {range.Last})"
            : $"frames {range.First} to {range.Last}"));
    }

    private static string Percent(double share) => double.IsFinite(share) ? $"{Figures.Text(Math.Round(share * 100, 2))} %" : "not known";
}
