namespace BosFlow.Benchmarks.Density;

/// <summary>What one solver did: its name, median seconds on the clock and of processor time (NaN where not measured), and the values at the unknown nodes.</summary>
internal sealed record SolverResult(string Name, double Seconds, double ProcessorSeconds, double[] Solution);
