namespace BosFlow.Pipeline;

/// <summary>A frame that could not be measured, or was left out.</summary>
/// <param name="Index">Number of the frame in the footage.</param>
/// <param name="Source">File (and position) the frame came from.</param>
/// <param name="Reason">One sentence.</param>
public sealed record FailedFrame(int Index, string Source, string Reason);
