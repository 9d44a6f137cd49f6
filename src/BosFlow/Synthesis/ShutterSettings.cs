namespace BosFlow.Synthesis;

/// <summary>When each row of a picture sees light.</summary>
public sealed record ShutterSettings
{
    /// <summary>Time between the first row and the end of the last of one frame, s, 0 to the frame's period; 0 = all rows at once.</summary>
    public double ReadoutSeconds { get; init; }

    /// <summary>Time for which each row collects light, s, 0 to the frame's period; 0 = an instant.</summary>
    public double ExposureSeconds { get; init; }

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    /// <param name="frameRateHz">Frame rate, Hz, greater than 0.</param>
    public IReadOnlyList<string> Problems(double frameRateHz)
    {
        var problems = new List<string>();
        if (!(ReadoutSeconds >= 0 && ReadoutSeconds * frameRateHz <= 1))
            problems.Add(FormattableString.Invariant($"The readout takes {ReadoutSeconds * 1e3} ms; it must be 0 to the period of a frame, {1e3 / frameRateHz:0.###} ms."));
        if (!(ExposureSeconds >= 0 && ExposureSeconds * frameRateHz <= 1))
            problems.Add(FormattableString.Invariant($"The exposure takes {ExposureSeconds * 1e3} ms; it must be 0 to the period of a frame, {1e3 / frameRateHz:0.###} ms."));
        return problems;
    }
}
