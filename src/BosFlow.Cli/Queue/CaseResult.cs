using System.Text.Json.Nodes;

namespace BosFlow.Cli.Queue;

/// <summary>What became of a case of a queue, in the words of its table; the fields of the run are not held.</summary>
internal sealed record CaseResult
{
    /// <summary>Name in the table.</summary>
    public required string Name { get; init; }

    /// <summary>Absolute path of the case file.</summary>
    public required string File { get; init; }

    /// <summary>What became of it.</summary>
    public required CaseState State { get; init; }

    /// <summary>Why it was refused or failed, one sentence each; empty where it is done.</summary>
    public IReadOnlyList<string> Problems { get; init; } = [];

    /// <summary>Frames measured; null where it is not done.</summary>
    public int? FramesMeasured { get; init; }

    /// <summary>Frames asked for; null where it is not done.</summary>
    public int? FramesTotal { get; init; }

    /// <summary>Noise floor, px; NaN where unknown.</summary>
    public double NoiseFloor { get; init; } = double.NaN;

    /// <summary>Time the case took; null where it was not begun.</summary>
    public TimeSpan? Time { get; init; }

    /// <summary>Where its results are; null where it was not begun.</summary>
    public string? Folder { get; init; }

    /// <summary>The JSON document of its run; null where it is not done.</summary>
    public JsonObject? Document { get; init; }
}
