namespace BosFlow;

/// <summary>The settings of an experiment cannot be used; carries every problem found, not only the first.</summary>
public sealed class ConfigurationException : Exception
{
    /// <summary>Creates the exception from all problems of one case.</summary>
    /// <param name="problems">One sentence each: key, line where known, value, allowed range. At least one.</param>
    public ConfigurationException(IReadOnlyList<string> problems)
        : base(string.Join(Environment.NewLine, problems))
    {
        ArgumentOutOfRangeException.ThrowIfZero(problems.Count);
        Problems = problems;
    }

    /// <summary>One sentence a problem, in the order of the file.</summary>
    public IReadOnlyList<string> Problems { get; }
}
