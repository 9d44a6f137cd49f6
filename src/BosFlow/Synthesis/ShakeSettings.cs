namespace BosFlow.Synthesis;

/// <summary>How a rattling mount moves the view: smooth in time, drawn from a seed.</summary>
public sealed record ShakeSettings
{
    /// <summary>Largest shift in x and in y from the first frame, px, 0 to 1000.</summary>
    public double ShiftPixels { get; init; }

    /// <summary>Largest rotation from the first frame, degrees, 0 to 45.</summary>
    public double RotationDegrees { get; init; }

    /// <summary>Largest change of scale from the first frame, percent, 0 to 20.</summary>
    public double ScalePercent { get; init; }

    /// <summary>Highest frequency of the motion, Hz, greater than 0.</summary>
    public double HighestFrequencyHz { get; init; } = 15;

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (!(ShiftPixels is >= 0 and <= 1000))
            problems.Add(FormattableString.Invariant($"The shake shifts by {ShiftPixels} px; it must be 0 to 1000 px."));
        if (!(RotationDegrees is >= 0 and <= 45))
            problems.Add(FormattableString.Invariant($"The shake rotates by {RotationDegrees} degrees; it must be 0 to 45 degrees."));
        if (!(ScalePercent is >= 0 and <= 20))
            problems.Add(FormattableString.Invariant($"The shake changes the scale by {ScalePercent} %; it must be 0 to 20 %."));
        if (!(HighestFrequencyHz is > 0 and <= 1e5))
            problems.Add(FormattableString.Invariant($"The shake's highest frequency is {HighestFrequencyHz} Hz; it must be greater than 0 and at most 100000 Hz."));
        return problems;
    }
}
