using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with several whole numbers, such as frames; a number may stand in it more than once.</summary>
internal sealed class WholeNumberListKey : TypedCaseKey<IReadOnlyList<int>>
{
    private const int MostNumbers = 10_000;

    /// <summary>Smallest allowed number.</summary>
    public required int Minimum { get; init; }

    /// <summary>Largest allowed number.</summary>
    public required int Maximum { get; init; }

    /// <inheritdoc/>
    public override string Kind => "list of whole numbers";

    /// <inheritdoc/>
    public override string Allowed => string.Create(CultureInfo.InvariantCulture, $"a list of 1 to {MostNumbers} whole numbers from {Minimum} to {Maximum}, as in {Example}");

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "array",
        ["minItems"] = 1,
        ["maxItems"] = MostNumbers,
        ["items"] = new JsonObject { ["type"] = "integer", ["minimum"] = Minimum, ["maximum"] = Maximum },
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out IReadOnlyList<int>? value)
    {
        value = null;
        if (node.Kind != TomlKind.List)
            return WrongKind(node);
        if (node.Items.Count is 0 or > MostNumbers)
            return $"has {node.Items.Count} entries; give {Allowed}.";
        List<int> numbers = [];
        foreach (TomlNode item in node.Items)
        {
            if (!item.TryNumber(out double number) || !(number >= Minimum && number <= Maximum) || number != Math.Floor(number))
                return $"holds {(item.Quote.Length == 0 ? "an empty place between commas" : item.Quote)}; give {Allowed}.";
            numbers.Add((int)number);
        }

        value = numbers;
        return null;
    }
}
