using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>The picture that everything is measured against.</summary>
/// <param name="Image">The picture; its pixel grid is the result's.</param>
/// <param name="FrameCount">Number of frames combined in it, at least 1.</param>
/// <param name="Description">One line for the report: where it comes from and how it was combined.</param>
/// <param name="Files">The files it came from, absolute paths, for the provenance; empty where frames of the footage served.</param>
/// <param name="Warnings">Consequences the user should know, one sentence each.</param>
public sealed record Reference(GrayImage Image, int FrameCount, string Description, IReadOnlyList<string> Files, IReadOnlyList<string> Warnings)
{
    /// <summary>
    /// How the rows of the other flow-off frames lie against those of the first, in the mean: with its sign turned, how the first was shaken itself. Null where one frame serves or
    /// rows are read at once.
    /// </summary>
    public RowMotion? MeanRows { get; init; }

    /// <summary>The picture more finely than its pixels, where it was fitted to all frames jointly; else null.</summary>
    public FineSpline? Underlying { get; init; }

    /// <summary>How the background drifted until the further stretches of flow-off frames; empty where none was given.</summary>
    public IReadOnlyList<BoardDriftFinding> Drift { get; init; } = [];
}
