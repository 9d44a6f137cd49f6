namespace BosFlow.Benchmarks.Density;

/// <summary>What one solver did: its name, median seconds, and the values at the unknown nodes.</summary>
internal sealed record SolverResult(string Name, double Seconds, double[] Solution);
