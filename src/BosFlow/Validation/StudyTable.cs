namespace BosFlow.Validation;

/// <summary>The measured points of a study, for a file or a plot.</summary>
/// <param name="Name">Short name without spaces, for the file.</param>
/// <param name="Title">Title in words.</param>
/// <param name="Columns">Names of the columns with their units.</param>
/// <param name="Rows">Values, one for each column; NaN where there is none.</param>
public sealed record StudyTable(string Name, string Title, IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<double>> Rows);
