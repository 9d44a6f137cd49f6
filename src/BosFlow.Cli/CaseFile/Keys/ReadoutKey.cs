using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a readout time, or the word that it shall be found.</summary>
internal sealed class ReadoutKey : TypedCaseKey<ReadoutChoice>
{
    /// <summary>The word for a readout time that is to be found.</summary>
    public const string Estimate = "estimate";

    private const double Largest = 1e3;

    /// <inheritdoc/>
    public override string Kind => "number or word";

    /// <inheritdoc/>
    public override string Allowed => "a number from 0 to 1000 ms, or \"estimate\"";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["oneOf"] = new JsonArray(
            new JsonObject { ["const"] = Estimate },
            new JsonObject { ["type"] = "number", ["minimum"] = 0, ["maximum"] = Largest }),
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out ReadoutChoice? value)
    {
        value = new ReadoutChoice(null);
        if (node.Value is string word)
            return word == Estimate ? null : $"is not known; give {Allowed}.";
        if (!node.TryNumber(out double number))
            return WrongKind(node);
        value = new ReadoutChoice(number);
        return number is >= 0 and <= Largest ? null : $"is out of range; give {Allowed}.";
    }
}
