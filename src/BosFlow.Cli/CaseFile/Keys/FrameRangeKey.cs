using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a choice of frames, start:stop:step.</summary>
internal sealed class FrameRangeKey : TypedCaseKey<string>
{
    /// <inheritdoc/>
    public override string Kind => "frame range";

    /// <inheritdoc/>
    public override string Allowed => FrameRangeSyntax.InWords;

    /// <inheritdoc/>
    public override JsonObject Schema() => new() { ["type"] = "string", ["pattern"] = FrameRangeSyntax.Pattern };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out string? value)
    {
        value = node.Value as string;
        if (value is null)
            return WrongKind(node);
        return FrameRangeSyntax.IsRange(value) ? null : $"is no frame range; give {Allowed}.";
    }
}
