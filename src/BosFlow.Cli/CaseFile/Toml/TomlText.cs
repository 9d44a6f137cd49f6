namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>A TOML file taken apart into sections and keys, each with its line.</summary>
/// <param name="Sections">Headings in the order of the file.</param>
/// <param name="Entries">Keys in the order of the file.</param>
internal sealed record TomlText(IReadOnlyList<TomlSection> Sections, IReadOnlyList<TomlEntry> Entries);
