using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a text, such as a path.</summary>
internal sealed class TextKey : TypedCaseKey<string>
{
    /// <summary>What the text is, in words, for messages.</summary>
    public required string What { get; init; }

    /// <inheritdoc/>
    public override string Kind => "text";

    /// <inheritdoc/>
    public override string Allowed => $"{What} in \"quotation marks\"";

    /// <inheritdoc/>
    public override JsonObject Schema() => new() { ["type"] = "string", ["minLength"] = 1 };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out string? value)
    {
        value = node.Value as string;
        if (node.Kind != TomlKind.Text)
            return WrongKind(node);
        return string.IsNullOrWhiteSpace(value) ? $"is empty; give {Allowed}." : null;
    }
}
