namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>What a case says of the readout time.</summary>
/// <param name="Milliseconds">The time, ms; null = it is to be found from the footage.</param>
internal sealed record ReadoutChoice(double? Milliseconds);
