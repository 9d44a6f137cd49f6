namespace BosFlow.Inspection;

/// <summary>What a check of one property came to, in words.</summary>
/// <param name="State">Good, bad or open.</param>
/// <param name="Subject">The property, a word or two.</param>
/// <param name="Sentence">Value, limit and, where it is not good, what to do.</param>
public sealed record CheckFinding(CheckState State, string Subject, string Sentence);
