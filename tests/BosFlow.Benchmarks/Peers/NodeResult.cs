namespace BosFlow.Benchmarks.Peers;

/// <summary>Displacement of one frame at the compared nodes, px; NaN where a method gives none.</summary>
internal sealed record NodeResult(float[] U, float[] V);
