namespace BosFlow.Benchmarks.Speed;

/// <summary>What one run of the program took.</summary>
/// <param name="Seconds">Time on the clock, s.</param>
/// <param name="ProcessorSeconds">Processor time of the program and of what it started, s.</param>
/// <param name="Megabytes">Largest resident size of the program, 10^6 bytes.</param>
internal sealed record WholeRun(double Seconds, double ProcessorSeconds, double Megabytes);
