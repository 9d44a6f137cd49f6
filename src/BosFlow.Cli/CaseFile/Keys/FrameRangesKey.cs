using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with one choice of frames, start:stop:step, or a list of them.</summary>
internal sealed class FrameRangesKey : TypedCaseKey<IReadOnlyList<string>>
{
    /// <inheritdoc/>
    public override string Kind => "frame range or list of them";

    /// <inheritdoc/>
    public override string Allowed => FrameRangeSyntax.InWords + ", or a list of such texts";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["oneOf"] = new JsonArray(One(), new JsonObject { ["type"] = "array", ["minItems"] = 1, ["items"] = One() }),
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out IReadOnlyList<string>? value)
    {
        IReadOnlyList<TomlNode> items = node.Kind == TomlKind.List ? node.Items : [node];
        value = [.. items.Select(item => item.Value as string ?? string.Empty)];
        return value.Count > 0 && value.All(FrameRangeSyntax.IsRange) ? null : $"is no frame range; give {Allowed}.";
    }

    private static JsonObject One() => new() { ["type"] = "string", ["pattern"] = FrameRangeSyntax.Pattern };
}
