namespace BosFlow.Pipeline;

/// <summary>How far a run is.</summary>
/// <param name="Step">What it is busy with.</param>
/// <param name="FramesDone">Frames of this step finished, failed and resumed ones included.</param>
/// <param name="FramesTotal">Frames of this step: of the reference, else those asked for; 0 where not known.</param>
/// <param name="FramesFailed">Frames of this process that could not be measured.</param>
public sealed record RunProgress(RunStep Step, int FramesDone, int FramesTotal, int FramesFailed);
