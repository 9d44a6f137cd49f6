using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a first and a last time.</summary>
internal sealed class SecondsKey : TypedCaseKey<(double Start, double Stop)>
{
    /// <inheritdoc/>
    public override string Kind => "two numbers";

    /// <inheritdoc/>
    public override string Allowed => "[first, last] in seconds, 0 or more, the first before the last";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "array",
        ["items"] = new JsonObject { ["type"] = "number", ["minimum"] = 0 },
        ["minItems"] = 2,
        ["maxItems"] = 2,
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out (double Start, double Stop) value)
    {
        value = default;
        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        if (node.Items.Count != 2 || !node.Items[0].TryNumber(out double start) || !node.Items[1].TryNumber(out double stop))
            return $"is not two numbers; give {Allowed}.";
        value = (start, stop);
        return start >= 0 && stop > start && double.IsFinite(stop) ? null : $"is not a span of time; give {Allowed}.";
    }
}
