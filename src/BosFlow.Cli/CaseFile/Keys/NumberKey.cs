using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key with a number.</summary>
internal sealed class NumberKey : TypedCaseKey<double>
{
    /// <summary>Smallest allowed value.</summary>
    public required double Minimum { get; init; }

    /// <summary>Largest allowed value.</summary>
    public required double Maximum { get; init; }

    /// <summary>Whether <see cref="Minimum"/> itself is not allowed.</summary>
    public bool AboveMinimum { get; init; }

    /// <summary>A key that gives the standard uncertainty of another one: 0 or above, without a default.</summary>
    /// <param name="section">Section of both.</param>
    /// <param name="name">Name with its unit.</param>
    /// <param name="description">What it is the uncertainty of.</param>
    /// <param name="maximum">Largest allowed value.</param>
    /// <param name="example">Value that the template shows.</param>
    public static NumberKey Uncertainty(string section, string name, string description, double maximum, double example) => new()
    {
        Section = section,
        Name = name,
        Description = description,
        Minimum = 0,
        Maximum = maximum,
        Example = TomlLiteral.Of(example),
        IsUncertainty = true,
    };

    /// <summary>A key that gives a number greater than 0, without a default.</summary>
    /// <param name="section">Section of the key.</param>
    /// <param name="name">Name with its unit.</param>
    /// <param name="description">What it means.</param>
    /// <param name="maximum">Largest allowed value.</param>
    /// <param name="example">Value that the template shows.</param>
    public static NumberKey Positive(string section, string name, string description, double maximum, double example) => new()
    {
        Section = section,
        Name = name,
        Description = description,
        Minimum = 0,
        AboveMinimum = true,
        Maximum = maximum,
        Example = TomlLiteral.Of(example),
    };

    /// <inheritdoc/>
    public override string Kind => "number";

    /// <inheritdoc/>
    public override string Allowed
    {
        get
        {
            string unit = Unit is null ? string.Empty : " " + Unit;
            string from = AboveMinimum
                ? string.Create(CultureInfo.InvariantCulture, $"a number greater than {Minimum:0.#####} and at most")
                : string.Create(CultureInfo.InvariantCulture, $"a number from {Minimum:0.#####} to");
            return string.Create(CultureInfo.InvariantCulture, $"{from} {Maximum:0.#####}{unit}");
        }
    }

    /// <inheritdoc/>
    public override JsonObject Schema() => new()
    {
        ["type"] = "number",
        [AboveMinimum ? "exclusiveMinimum" : "minimum"] = Minimum,
        ["maximum"] = Maximum,
    };

    /// <inheritdoc/>
    protected override string? TryRead(TomlNode node, out double value)
    {
        if (!node.TryNumber(out value))
            return WrongKind(node);
        // A comparison with NaN is false, so the test is written for what is allowed.
        bool allowed = (AboveMinimum ? value > Minimum : value >= Minimum) && value <= Maximum;
        return allowed ? null : $"is out of range; give {Allowed}.";
    }
}
