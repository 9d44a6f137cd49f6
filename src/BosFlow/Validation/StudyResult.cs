namespace BosFlow.Validation;

/// <summary>What a study gave.</summary>
/// <param name="Title">What was studied.</param>
/// <param name="Description">How: scene, settings, number of vectors, in plain words.</param>
/// <param name="Figures">Figures in order.</param>
/// <param name="Tables">Measured points.</param>
public sealed record StudyResult(string Title, string Description, IReadOnlyList<Figure> Figures, IReadOnlyList<StudyTable> Tables);
