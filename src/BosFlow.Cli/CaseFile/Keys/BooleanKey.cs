using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key that is true or false.</summary>
internal sealed class BooleanKey : TypedCaseKey<bool>
{
    /// <inheritdoc/>
    public override string Kind => "true or false";

    /// <inheritdoc/>
    public override string Allowed => "true or false";

    /// <inheritdoc/>
    public override JsonObject Schema() => new() { ["type"] = "boolean" };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out bool value)
    {
        value = node.Value is true;
        return node.Kind == TomlKind.Boolean ? null : $"is {node.KindInWords}; give {Allowed}, without quotation marks.";
    }
}
