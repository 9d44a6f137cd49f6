namespace BosFlow.Benchmarks.Endurance;

/// <summary>One disturbed run.</summary>
/// <param name="FinishedFrames">Frames that were finished when it was disturbed.</param>
/// <param name="Equal">Whether it ended, once it had gone on, with the bytes of an undisturbed run.</param>
internal sealed record KillTrial(int FinishedFrames, bool Equal);
