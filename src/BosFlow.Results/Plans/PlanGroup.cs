namespace BosFlow.Results.Plans;

/// <summary>Lines of the sheet of a plan that belong together.</summary>
/// <param name="Title">What they are about.</param>
/// <param name="Lines">The lines.</param>
/// <param name="Note">A sentence below them; empty for none.</param>
public sealed record PlanGroup(string Title, IReadOnlyList<PlanLine> Lines, string Note = "");
