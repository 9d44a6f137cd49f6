namespace BosFlow.Footage;

/// <summary>What reading one frame of the footage gave: a picture, or the reason why there is none.</summary>
/// <param name="Index">Number of the frame in the footage, from 0.</param>
/// <param name="TimeSeconds">Time since the first frame of the footage, from the container's time stamps, s; NaN where unknown.</param>
/// <param name="Source">File (and position in it) the frame came from, for messages.</param>
/// <param name="Image">The picture, or null where it could not be read.</param>
/// <param name="Failure">One sentence that says why there is no picture; null where there is one.</param>
public sealed record Frame(int Index, double TimeSeconds, string Source, GrayImage? Image, string? Failure)
{
    /// <summary>Number of the frame before this one, where both show the same picture, pixel by pixel; null where they do not, or nobody looked.</summary>
    public int? RepeatOf { get; init; }
}
