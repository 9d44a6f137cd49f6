namespace BosFlow.Synthesis;

/// <summary>A camera's electronic stabilisation: it cuts every picture out of a larger one, shifted so that the view moves smoothly, with interpolation between pixels.</summary>
public sealed record StabilisationSettings
{
    /// <summary>Standard deviation of the Gaussian in time that smooths the view's motion, frames, greater than 0, at most 1000.</summary>
    public double SmoothingFrames { get; init; } = 10;

    /// <summary>Pixels that the sensor has beyond every edge of the picture: the farthest the cut may go, px, 1 to 500.</summary>
    public int BorderPixels { get; init; } = 20;

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (!(SmoothingFrames is > 0 and <= 1000))
            problems.Add(FormattableString.Invariant($"The stabilisation smooths over {SmoothingFrames} frames; it must be greater than 0 and at most 1000."));
        if (BorderPixels is < 1 or > 500)
            problems.Add($"The stabilisation has a border of {BorderPixels} px; it must be 1 to 500 px.");
        return problems;
    }
}
