using System.Globalization;

namespace BosFlow.Cli.CaseFile;

/// <summary>Collects every problem of one case file, so that all are told at once.</summary>
/// <param name="fileName">Name of the file as the user knows it, for the beginning of each sentence; null where there is none.</param>
internal sealed class CaseProblems(string? fileName)
{
    private readonly List<(int Line, string Sentence)> found = [];

    /// <summary>Whether nothing was found.</summary>
    public bool None => found.Count == 0;

    /// <summary>Adds a problem of a line or an option.</summary>
    /// <param name="place">Where it is; line 0 where something is missing from the whole file.</param>
    /// <param name="sentence">What is wrong and how to mend it.</param>
    public void Add(CasePlace place, string sentence)
    {
        string start = place switch
        {
            { Option: { } option } => option + ": ",
            { Line: > 0 } => string.Create(CultureInfo.InvariantCulture, $"{fileName}, line {place.Line}: "),
            _ => fileName is null ? string.Empty : fileName + ": ",
        };
        found.Add((place.Line, start + sentence));
    }

    /// <summary>Adds a problem of a line and column.</summary>
    /// <param name="line">Line, from 1.</param>
    /// <param name="column">Column, from 1.</param>
    /// <param name="sentence">What is wrong and how to mend it.</param>
    public void Add(int line, int column, string sentence) =>
        found.Add((line, string.Create(CultureInfo.InvariantCulture, $"{fileName}, line {line}, column {column}: {sentence}")));

    /// <summary>Adds a problem whose sentence names its place itself.</summary>
    /// <param name="sentence">What is wrong, where, and how to mend it.</param>
    public void AddPlain(string sentence) => found.Add((0, sentence));

    /// <summary>Throws where anything was found.</summary>
    /// <exception cref="ConfigurationException">At least one problem; what concerns the whole file first, then in the order of the lines.</exception>
    public void ThrowIfAny()
    {
        if (found.Count > 0)
            throw new ConfigurationException([.. found.OrderBy(problem => problem.Line).Select(problem => problem.Sentence)]);
    }
}
