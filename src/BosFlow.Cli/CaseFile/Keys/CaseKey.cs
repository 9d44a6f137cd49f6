using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>
/// The declaration of one key of the case file. Reading with checks, the template of a new case, the JSON Schema
/// and the table of keys in the documentation all come from it.
/// </summary>
internal abstract class CaseKey
{
    /// <summary>Section the key stands in.</summary>
    public required string Section { get; init; }

    /// <summary>Name, with the unit at its end where it has one.</summary>
    public required string Name { get; init; }

    /// <summary>What it means, one or two sentences.</summary>
    public required string Description { get; init; }

    /// <summary>What holds where the key is missing, in TOML notation; null where nothing does.</summary>
    public string? Default { get; init; }

    /// <summary>A value for the template and the documentation, in TOML notation; the default where not given.</summary>
    public string? Example { get; init; }

    /// <summary>Whether a new case starts with this key set; the others stand there as comments.</summary>
    public bool SetInNewCase { get; init; }

    /// <summary>Whether this is the standard uncertainty of another key; a new case lists these briefly, behind the other keys of their section.</summary>
    public bool IsUncertainty { get; init; }

    /// <summary>Section and name, as messages give them.</summary>
    public string FullName => Section + "." + Name;

    /// <summary>Unit in words; null for a key without one.</summary>
    public string? Unit => UnitSuffix.OfKey(Name)?.Words;

    /// <summary>The kind of value in words, for the table of keys.</summary>
    public abstract string Kind { get; }

    /// <summary>The allowed values in words.</summary>
    public abstract string Allowed { get; }

    /// <summary>Type and range for the JSON Schema, without description and default.</summary>
    public abstract JsonObject Schema();

    /// <summary>Reads and checks a value.</summary>
    /// <param name="node">The value in the file.</param>
    /// <param name="problem">Why it cannot be used, without the key's name; null where it can.</param>
    /// <returns>The value; null where it cannot be used.</returns>
    public abstract object? Read(TomlNode node, out string? problem);
}
