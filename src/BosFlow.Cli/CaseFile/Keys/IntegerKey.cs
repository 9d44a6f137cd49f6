using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a whole number.</summary>
internal sealed class IntegerKey : TypedCaseKey<int>
{
    /// <summary>Smallest allowed value.</summary>
    public required int Minimum { get; init; }

    /// <summary>Largest allowed value.</summary>
    public required int Maximum { get; init; }

    /// <summary>The value must be a multiple of this.</summary>
    public int MultipleOf { get; init; } = 1;

    /// <summary>The only allowed values; empty where the whole range is.</summary>
    public IReadOnlyList<int> Only { get; init; } = [];

    /// <inheritdoc/>
    public override string Kind => "whole number";

    /// <inheritdoc/>
    public override string Allowed
    {
        get
        {
            string unit = Unit is null ? string.Empty : " " + Unit;
            if (Only.Count > 0)
                return string.Join(", ", Only.SkipLast(1)) + string.Create(CultureInfo.InvariantCulture, $" or {Only[^1]}{unit}");
            string even = MultipleOf == 2 ? "even " : string.Empty;
            return string.Create(CultureInfo.InvariantCulture, $"a whole {even}number from {Minimum} to {Maximum}{unit}");
        }
    }

    /// <inheritdoc/>
    public override JsonObject Schema()
    {
        var schema = new JsonObject { ["type"] = "integer" };
        if (Only.Count > 0)
        {
            schema["enum"] = new JsonArray([.. Only.Select(value => JsonValue.Create(value))]);
            return schema;
        }

        schema["minimum"] = Minimum;
        schema["maximum"] = Maximum;
        if (MultipleOf > 1)
            schema["multipleOf"] = MultipleOf;
        return schema;
    }

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out int value)
    {
        value = 0;
        if (node.Value is not long whole)
            return WrongKind(node);
        if (whole < Minimum || whole > Maximum || whole % MultipleOf != 0 || (Only.Count > 0 && !Only.Contains((int)whole)))
            return $"is not allowed; give {Allowed}.";
        value = (int)whole;
        return null;
    }
}
