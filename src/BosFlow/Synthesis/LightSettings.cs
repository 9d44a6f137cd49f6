namespace BosFlow.Synthesis;

/// <summary>How the light on a scene's board is uneven, in place and in time. Factors multiply; the glare is added.</summary>
public sealed record LightSettings
{
    /// <summary>Loss of light in the corners by the law of the fourth power of the cosine, percent, 0 to 95.</summary>
    public double VignettingPercent { get; init; }

    /// <summary>Half the swing of a flickering lamp, percent of its mean, 0 to 100; rows read at other times get other light.</summary>
    public double FlickerPercent { get; init; }

    /// <summary>Frequency of that light, twice the mains' for a plain lamp, Hz, greater than 0.</summary>
    public double FlickerHertz { get; init; } = 100;

    /// <summary>Standard deviation of the exposure from frame to frame, percent, 0 to 50.</summary>
    public double UnsteadyPercent { get; init; }

    /// <summary>Largest step of an automatic exposure that hunts, percent, 0 to 95: each step is uniform within it.</summary>
    public double HuntingPercent { get; init; }

    /// <summary>Frames for which such a step lasts, at least 1.</summary>
    public int HuntingFrames { get; init; } = 10;

    /// <summary>Half the difference of the light from one end of the picture's diagonal to the other, percent of the middle, 0 to 95.</summary>
    public double SlantPercent { get; init; }

    /// <summary>Direction of the brighter side at time 0, degrees counter-clockwise as seen, 0 = right.</summary>
    public double SlantDegrees { get; init; }

    /// <summary>Turning of that direction, as under a drifting sun, degrees/s.</summary>
    public double SlantDegreesPerSecond { get; init; }

    /// <summary>A shadow's edge that runs over the board; null = none.</summary>
    public ShadowSettings? Shadow { get; init; }

    /// <summary>A bright spot; null = none.</summary>
    public GlareSettings? Glare { get; init; }

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        Check(problems, VignettingPercent, 95, "The corners lose");
        Check(problems, FlickerPercent, 100, "The light flickers by");
        Check(problems, UnsteadyPercent, 50, "The exposure scatters by");
        Check(problems, HuntingPercent, 95, "The exposure hunts by");
        Check(problems, SlantPercent, 95, "The light slants by");
        if (!(FlickerHertz is > 0 and <= 1e5))
            problems.Add(FormattableString.Invariant($"The light flickers at {FlickerHertz} Hz; it must be greater than 0 and at most 100000 Hz."));
        if (HuntingFrames < 1)
            problems.Add($"A step of the exposure lasts {HuntingFrames} frames; give at least 1.");
        if (Shadow is { WidthPixels: not > 0 } or { Percent: not (>= 0 and <= 100) })
            problems.Add("The shadow must take 0 to 100 % and its edge be wider than 0 px.");
        if (Glare is { RadiusPixels: not > 0 } or { Level: not >= 0 })
            problems.Add("The glare must have a radius greater than 0 px and a level of at least 0.");
        return problems;
    }

    private static void Check(List<string> problems, double percent, double largest, string what)
    {
        if (!(percent >= 0 && percent <= largest))
            problems.Add(FormattableString.Invariant($"{what} {percent} %; it must be 0 to {largest} %."));
    }
}
