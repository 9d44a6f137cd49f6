using BosFlow.Density;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>What the case file says of the axis of a flow.</summary>
/// <param name="Line">The axis; null = it is to be found.</param>
internal sealed record AxisChoice(AxisLine? Line);
