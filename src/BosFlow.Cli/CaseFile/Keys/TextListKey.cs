using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with one text or a list of texts.</summary>
internal sealed class TextListKey : TypedCaseKey<IReadOnlyList<string>>
{
    /// <inheritdoc/>
    public override string Kind => "text or list of texts";

    /// <inheritdoc/>
    public override string Allowed => "a path, a pattern such as \"frames/*.png\", or a list of paths [\"a.png\", \"b.png\"]";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["oneOf"] = new JsonArray(
            new JsonObject { ["type"] = "string", ["minLength"] = 1 },
            new JsonObject
            {
                ["type"] = "array",
                ["minItems"] = 1,
                ["items"] = new JsonObject { ["type"] = "string", ["minLength"] = 1 },
            }),
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out IReadOnlyList<string>? value)
    {
        value = node.Kind switch
        {
            TomlKind.Text => [(string)node.Value!],
            TomlKind.List when node.Items.All(item => item.Kind == TomlKind.Text) => [.. node.Items.Select(item => (string)item.Value!)],
            _ => null,
        };
        if (value is null)
            return node.Kind == TomlKind.List ? $"holds something that is no text; give {Allowed}." : WrongKind(node);
        return value.Count == 0 || value.Any(string.IsNullOrWhiteSpace) ? $"is empty; give {Allowed}." : null;
    }
}
