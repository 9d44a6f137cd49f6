using System.Globalization;

namespace BosFlow.Cli.CaseFile;

/// <summary>Where a value was given: in a line of the case file, or by an option of the command line.</summary>
/// <param name="Line">Line, from 1; 0 where the file does not have it.</param>
/// <param name="Option">Name of the option; null for a line of the file.</param>
internal readonly record struct CasePlace(int Line, string? Option)
{
    /// <summary>A line is a place in the file.</summary>
    /// <param name="line">Line, from 1; 0 for none.</param>
    public static implicit operator CasePlace(int line) => new(line, null);

    /// <summary>The place in words.</summary>
    public override string ToString() => Option ?? string.Create(CultureInfo.InvariantCulture, $"line {Line}");
}
