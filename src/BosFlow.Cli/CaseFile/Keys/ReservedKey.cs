using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key that is known but that this version cannot honour; it is refused instead of ignored.</summary>
internal sealed class ReservedKey : TypedCaseKey<double>
{
    /// <summary>The one number that may be given, because it asks for nothing; null where every value is refused.</summary>
    public double? Harmless { get; init; }

    /// <summary>Why the key is refused and what to do, beginning after the key's name.</summary>
    public required string Sentence { get; init; }

    /// <inheritdoc/>
    public override string Kind => "number";

    /// <inheritdoc/>
    public override string Allowed => Harmless is null ? "nothing" : TomlLiteral.Of(Harmless.Value);

    /// <inheritdoc/>
    public override JsonObject Schema() => new() { ["const"] = Harmless };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out double value) =>
        node.TryNumber(out value) && value == Harmless ? null : Sentence;
}
