namespace BosFlow.Planning;

/// <summary>A plan for one value of a quantity that is varied.</summary>
/// <param name="Value">The value, in the unit of <see cref="PlanQuantity"/>.</param>
/// <param name="Result">The plan; null where there can be none.</param>
/// <param name="Problem">Why there is none, one sentence or more; null where there is one.</param>
public sealed record PlanStep(double Value, PlanResult? Result, string? Problem);
