namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>The heading of a section of a TOML file.</summary>
/// <param name="Name">Name between the brackets.</param>
/// <param name="Line">Line of the heading, from 1.</param>
/// <param name="Repeated">Whether it is written with double brackets, which no section of a case file takes.</param>
internal sealed record TomlSection(string Name, int Line, bool Repeated);
