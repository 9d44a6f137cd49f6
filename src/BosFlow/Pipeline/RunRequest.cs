using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle.Boards;

namespace BosFlow.Pipeline;

/// <summary>Everything a run needs, opened by the caller.</summary>
public sealed record RunRequest
{
    /// <summary>The effective case.</summary>
    public required ExperimentCase Case { get; init; }

    /// <summary>The footage.</summary>
    public required IFootage Footage { get; init; }

    /// <summary>Numbers of the frames to measure, ascending, without repeats, at least one.</summary>
    public required IReadOnlyList<int> FrameIndices { get; init; }

    /// <summary>Where the reference comes from.</summary>
    public required ReferenceSource Reference { get; init; }

    /// <summary>The printed board; null = none is described.</summary>
    public BoardFacts? Board { get; init; }

    /// <summary>Scale of the board as it shows itself in the reference; null = it was not found.</summary>
    public BoardScale? BoardScale { get; init; }

    /// <summary>Where results go.</summary>
    public required IRunStore Store { get; init; }

    /// <summary>What to do of the run.</summary>
    public RunPart Part { get; init; } = RunPart.Whole;

    /// <summary>Notices changed files; null = nobody looks.</summary>
    public ISourceWatch? Sources { get; init; }

    /// <summary>How to carry it out.</summary>
    public RunOptions Options { get; init; } = new();
}
