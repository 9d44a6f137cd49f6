using BosFlow.Planning;

namespace BosFlow.Cli.CaseFile;

/// <summary>A case that is to be planned, checked and in SI units.</summary>
/// <param name="File">Absolute path of the case file; null where options alone describe the rig.</param>
/// <param name="Request">The rig that is to be judged.</param>
/// <param name="Limits">What the rig may be.</param>
internal sealed record PlanCase(string? File, PlanRequest Request, PlanLimits Limits);
