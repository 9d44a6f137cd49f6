namespace BosFlow.Triage;

/// <summary>Something that should be changed before the next take.</summary>
/// <param name="Fault">What is wrong.</param>
/// <param name="Effect">How many times better the vectors would be without it, about; at least 1. Findings are ranked by it.</param>
/// <param name="IsFatal">Whether the take is unusable for it.</param>
/// <param name="Sentence">What was found, with its figure.</param>
/// <param name="Remedy">What to change.</param>
public sealed record TriageFinding(TriageFault Fault, double Effect, bool IsFatal, string Sentence, string Remedy);
