namespace BosFlow.Planning;

/// <summary>What a search for the best rig found.</summary>
/// <param name="Front">Rigs of which none is bettered by another in ratio, resolution and board width at once, by falling ratio; empty where no rig is within the limits.</param>
/// <param name="Best">The one of them with the largest ratio over resolution; null where none is within the limits.</param>
/// <param name="Obstacles">Where none is within the limits: what the nearest one violates, one sentence each.</param>
/// <param name="Judged">Number of rigs looked at.</param>
public sealed record PlanOptimum(IReadOnlyList<PlanCandidate> Front, PlanCandidate? Best, IReadOnlyList<string> Obstacles, int Judged);
