namespace BosFlow.Triage;

/// <summary>The figures of a take, medians over the sampled frames where nothing else is said; NaN where not known.</summary>
public sealed record TriageMeasures
{
    /// <summary>e^-2 diameter of a dot's image, px.</summary>
    public required double DotPixels { get; init; }

    /// <summary>The same without smear: along the short axis of the sharpest tenth of the frames, px.</summary>
    public required double SharpDotPixels { get; init; }

    /// <summary>Dots in an interrogation window.</summary>
    public required double DotsPerWindow { get; init; }

    /// <summary>Share of the tiles that show a pattern.</summary>
    public required double PatternShare { get; init; }

    /// <summary>0.5th to 99.5th percentile of the grey levels in a tile, share of white.</summary>
    public required double Contrast { get; init; }

    /// <summary>Mean grey level, share of white.</summary>
    public required double Level { get; init; }

    /// <summary>Share of the pixels at white.</summary>
    public required double ClippedHigh { get; init; }

    /// <summary>Share of the pixels at black.</summary>
    public required double ClippedLow { get; init; }

    /// <summary>5th to 95th percentile of the mean level over the frames, share of their median.</summary>
    public required double ExposureRange { get; init; }

    /// <summary>RMS change of the mean level from frame to frame, share of the median.</summary>
    public required double Flicker { get; init; }

    /// <summary>RMS motion from frame to frame, px, x and y together.</summary>
    public required double ShakePerFrame { get; init; }

    /// <summary>RMS distance from a steady course within a run of frames, px, x and y together.</summary>
    public required double ShakeRms { get; init; }

    /// <summary>Frequency at which the shake is strongest as the frames show it, Hz; faster shake is folded to below half the frame rate.</summary>
    public required double ShakeHertz { get; init; }

    /// <summary>Length over which a dot is dragged while the exposure lasts, px.</summary>
    public required double SmearPixels { get; init; }

    /// <summary>Row-wise shift that the whole picture's motion does not explain, px RMS.</summary>
    public required double Wobble { get; init; }

    /// <summary>Swings of that shift over a picture.</summary>
    public required double WobbleCycles { get; init; }

    /// <summary>Change of a dot's variance from frame to frame, px2: what interpolation by a fraction of a pixel makes, and smear.</summary>
    public required double SharpnessPulse { get; init; }

    /// <summary>RMS change of a row's motion from one frame to the next, px, x and y together, median over the rows: 0 for a steady drift.</summary>
    public required double Jitter { get; init; }

    /// <summary>The same for the row that is steadiest.</summary>
    public required double LeastJitter { get; init; }

    /// <summary>Share of the pairs of neighbours that are the same picture; 0 where the picture hardly moves, since that cannot be told then, and where there is one such pair only, which may be a turning point of the shake.</summary>
    public required double RepeatedShare { get; init; }

    /// <summary>Share of the pairs of neighbours between which a motion was found.</summary>
    public required double FoundShare { get; init; }

    /// <summary>Difference across block borders over that inside.</summary>
    public required double Blockiness { get; init; }

    /// <summary>Noise of one component of a vector in one frame against one reference frame, px.</summary>
    public required double NoiseFloor { get; init; }
}
