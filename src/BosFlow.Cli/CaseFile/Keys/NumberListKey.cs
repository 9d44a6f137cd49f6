using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with several numbers to choose from.</summary>
internal sealed class NumberListKey : TypedCaseKey<IReadOnlyList<double>>
{
    // A choice of lenses or stops; more is a mistake, and an hour of search.
    private const int MostNumbers = 32;

    /// <summary>Every number must be greater than this.</summary>
    public required double Above { get; init; }

    /// <summary>Largest allowed number.</summary>
    public required double Maximum { get; init; }

    /// <summary>Whether a number may stand in the list more than once.</summary>
    public bool MayRepeat { get; init; }

    /// <inheritdoc/>
    public override string Kind => "list of numbers";

    /// <inheritdoc/>
    public override string Allowed
    {
        get
        {
            string unit = Unit is null ? string.Empty : " " + Unit;
            return string.Create(CultureInfo.InvariantCulture, $"a list of 1 to {MostNumbers}{(MayRepeat ? string.Empty : " different")} numbers greater than {Above:0.#####} and at most {Maximum:0.#####}{unit}, as in {Example}");
        }
    }

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "array",
        ["minItems"] = 1,
        ["maxItems"] = MostNumbers,
        ["uniqueItems"] = !MayRepeat,
        ["items"] = new JsonObject { ["type"] = "number", ["exclusiveMinimum"] = Above, ["maximum"] = Maximum },
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out IReadOnlyList<double>? value)
    {
        value = null;
        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        if (node.Items.Count is 0 or > MostNumbers)
            return $"has {node.Items.Count} entries; give {Allowed}.";
        List<double> numbers = [];
        foreach (TomlNode item in node.Items)
        {
            if (!item.TryNumber(out double number) || !(number > Above && number <= Maximum))
                return $"holds {(item.Quote.Length == 0 ? "an empty place between commas" : item.Quote)}; give {Allowed}.";
            if (!MayRepeat && numbers.Contains(number))
                return $"holds {item.Quote} twice; give each number once.";
            numbers.Add(number);
        }

        value = numbers;
        return null;
    }
}
