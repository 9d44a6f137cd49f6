using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile;

/// <summary>Writes the JSON Schema (draft 2020-12) of the case file, with which editors complete and check it.</summary>
internal static class CaseSchema
{
    // Units such as the micrometre sign stay readable in the committed file.
    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The schema as text.</summary>
    public static string Write()
    {
        var sections = new JsonObject();
        foreach (CaseSection section in CaseSections.All)
            sections[section.Name] = Of(section);
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "BosFlow case file",
            ["description"] = "One experiment: what was filmed, how, in which gas, and what is wanted.",
            ["type"] = "object",
            ["properties"] = sections,
            ["additionalProperties"] = false,
        };
        return schema.ToJsonString(Layout) + "\n";
    }

    private static JsonObject Of(CaseSection section)
    {
        var properties = new JsonObject();
        foreach (CaseKey key in section.Keys)
            properties[key.Name] = Of(key);
        return new JsonObject
        {
            ["description"] = section.Description,
            ["type"] = "object",
            ["properties"] = properties,
            ["additionalProperties"] = false,
        };
    }

    private static JsonObject Of(CaseKey key)
    {
        JsonObject schema = key.Schema();
        schema["description"] = key.Unit is null ? key.Description : $"{key.Description} Unit: {key.Unit}.";
        if (key.Default is not null)
            schema["default"] = ToJson(TomlReader.Value(key.Default));
        if (key.Example is not null)
            schema["examples"] = new JsonArray(ToJson(TomlReader.Value(key.Example)));
        return schema;
    }

    private static JsonNode? ToJson(TomlNode node) => node.Value switch
    {
        string text => JsonValue.Create(text),
        long whole => JsonValue.Create(whole),
        double real => JsonValue.Create(real),
        bool truth => JsonValue.Create(truth),
        IReadOnlyList<TomlEntry> entries => new JsonObject(entries.Select(entry => KeyValuePair.Create(entry.Key, ToJson(entry.Value)))),
        IReadOnlyList<TomlNode> items => new JsonArray([.. items.Select(ToJson)]),
        _ => null,
    };
}
