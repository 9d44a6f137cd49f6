using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>The frames that a reference picture is made of.</summary>
/// <param name="Frames">The frames, read one at a time, once; the first usable one gives the pixel grid.</param>
/// <param name="Description">Where they come from, in words that continue "Mean of 30 frames: ...", for the report.</param>
/// <param name="Files">The files they come from, absolute paths; empty where frames of the footage serve.</param>
/// <param name="WholeClip">Whether these are the measured frames themselves because no flow-off frames exist.</param>
public sealed record ReferenceSource(IEnumerable<Frame> Frames, string Description, IReadOnlyList<string> Files, bool WholeClip)
{
    /// <summary>Number of frames, for the progress shown; 0 where it is not known.</summary>
    public int FrameCount { get; init; }

    /// <summary>Mean time of the frames, s; their mean number where the footage has no times. Only differences count.</summary>
    public double MeanTime { get; init; }

    /// <summary>Further stretches of flow-off frames, by which drift is found.</summary>
    public IReadOnlyList<ReferenceSource> Later { get; init; } = [];
}
