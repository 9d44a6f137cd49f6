namespace BosFlow.Planning;

/// <summary>Something about a plan that its user should change.</summary>
/// <param name="Sentence">What is wrong, with the numbers.</param>
/// <param name="Remedy">What to change, with a number where there is one.</param>
public sealed record PlanWarning(string Sentence, string Remedy);
