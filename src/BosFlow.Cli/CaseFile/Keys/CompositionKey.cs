using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;
using BosFlow.Optics;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a gas mixture: gases and their mole fractions.</summary>
internal sealed class CompositionKey : TypedCaseKey<IReadOnlyList<GasFraction>>
{
    // Mole fractions are typed with two or three digits: what misses 1 by more than this is a forgotten gas or a wrong number.
    // The last bit of 0.78 + 0.21 must not decide.
    private const double LargestSumError = 0.01 + 1e-9;

    /// <inheritdoc/>
    public override string Kind => "gases and mole fractions";

    /// <inheritdoc/>
    public override string Allowed => "gases of the table with mole fractions from 0 to 1 that add to 1 within 0.01, as in {nitrogen = 0.78, oxygen = 0.21, argon = 0.01}";

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "object",
        ["propertyNames"] = new JsonObject { ["enum"] = new JsonArray([.. KnownGas.Names.Concat(KnownGas.Names.Select(Typed)).Distinct().Select(name => JsonValue.Create(name))]) },
        ["additionalProperties"] = new JsonObject { ["type"] = "number", ["minimum"] = 0, ["maximum"] = 1 },
        ["minProperties"] = 1,
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out IReadOnlyList<GasFraction>? value)
    {
        value = null;
        if (node.Kind != TomlKind.Table)
            return WrongKind(node);
        List<GasFraction> parts = [];
        foreach (TomlEntry entry in node.Entries)
        {
            // A bare key of TOML has no spaces.
            string name = entry.Key.Replace('_', ' ');
            if (KnownGas.Find(name) is not { } gas)
                return UnknownGas(entry.Key);
            if (!entry.Value.TryNumber(out double fraction) || !(fraction is >= 0 and <= 1))
                return $"holds {entry.Key} = {entry.Value.Quote}, which is no mole fraction; give a number from 0 to 1.";
            if (parts.Any(part => part.Name == gas.Name))
                return $"holds {gas.Name} twice; add the two.";
            parts.Add(new GasFraction(gas.Name, fraction));
        }

        double sum = parts.Sum(part => part.MoleFraction);
        if (!(Math.Abs(sum - 1) <= LargestSumError))
            return FormattableString.Invariant($"adds to {sum:0.####}; mole fractions must add to 1 within 0.01, so correct them or add the gas that is missing.");
        value = parts;
        return null;
    }

    private static string UnknownGas(string typed)
    {
        string? near = NearestWord.Find(typed, KnownGas.Names.Select(Typed));
        return near is null
            ? $"holds {typed}, which is not in the table of gases; it has {string.Join(", ", KnownGas.Names.Select(Typed))}."
            : $"holds {typed}, which is not in the table of gases; did you mean {near}?";
    }

    private static string Typed(string name) => name.Replace(' ', '_');
}
