namespace BosFlow.Synthesis;

/// <summary>Spectrum of the motion that an engine or the air gives a camera: a band of noise, and lines.</summary>
public sealed record VibrationSettings
{
    /// <summary>Lower end of the band, Hz, 0 to HighHertz.</summary>
    public double LowHertz { get; init; } = 5;

    /// <summary>Upper end of the band, Hz, greater than LowHertz, at most 100000.</summary>
    public double HighHertz { get; init; } = 100;

    /// <summary>Root mean square of the band's shift, in x and in y each, px, 0 to 200.</summary>
    public double ShiftRmsPixels { get; init; }

    /// <summary>Root mean square of the band's rotation, degrees, 0 to 10.</summary>
    public double RotationRmsDegrees { get; init; }

    /// <summary>Root mean square of the band's change of scale, percent, 0 to 5.</summary>
    public double ScaleRmsPercent { get; init; }

    /// <summary>Tones that shift the view, such as a shaft's rate and its multiples.</summary>
    public IReadOnlyList<VibrationLine> Lines { get; init; } = [];

    /// <summary>Number of frames at the start in which the camera is still, as before an engine starts, 0 or more.</summary>
    public int StillFrames { get; init; }

    /// <summary>Highest frequency of band and lines, Hz.</summary>
    public double HighestHertz => Lines.Select(line => line.Hertz).Append(HighHertz).Max();

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (!(LowHertz >= 0 && LowHertz < HighHertz && HighHertz <= 1e5))
            problems.Add(FormattableString.Invariant($"The vibration's band reaches from {LowHertz} to {HighHertz} Hz; its ends must rise and lie within 0 to 100000 Hz."));
        if (!(ShiftRmsPixels is >= 0 and <= 200))
            problems.Add(FormattableString.Invariant($"The vibration shifts by {ShiftRmsPixels} px RMS; it must be 0 to 200 px."));
        if (!(RotationRmsDegrees is >= 0 and <= 10))
            problems.Add(FormattableString.Invariant($"The vibration rotates by {RotationRmsDegrees} degrees RMS; it must be 0 to 10 degrees."));
        if (!(ScaleRmsPercent is >= 0 and <= 5))
            problems.Add(FormattableString.Invariant($"The vibration changes the scale by {ScaleRmsPercent} % RMS; it must be 0 to 5 %."));
        foreach (VibrationLine line in Lines.Where(line => !(line.Hertz is > 0 and <= 1e5 && line.AmplitudePixels is >= 0 and <= 200)))
            problems.Add(FormattableString.Invariant($"The vibration has a line of {line.AmplitudePixels} px at {line.Hertz} Hz; lines must have 0 to 200 px at more than 0 and at most 100000 Hz."));
        if (StillFrames < 0)
            problems.Add($"The camera is still in the first {StillFrames} frames; give 0 or more.");
        return problems;
    }
}
