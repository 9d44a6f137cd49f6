namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>One key of a TOML file.</summary>
/// <param name="Section">Name of its section; empty above the first section.</param>
/// <param name="Key">Name of the key.</param>
/// <param name="Line">Line of the key, from 1.</param>
/// <param name="Value">Its value.</param>
internal sealed record TomlEntry(string Section, string Key, int Line, TomlNode Value);
