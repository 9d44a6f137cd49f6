using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;
using BosFlow.Optics;

namespace BosFlow.Cli.CaseFile;

/// <summary>Finds what is wrong between the keys of [gas].</summary>
internal static class GasContradictions
{
    private const string Air = "air";

    /// <summary>Notes every contradiction.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Find(CaseValues values, CaseProblems problems)
    {
        bool clean = problems.None;
        Flow(values, problems);
        Ambient(values, problems);
        State(values, problems);
        Uncertainties(values, problems);
        if (clean && problems.None)
            Ranges(values, problems);
    }

    private static void Flow(CaseValues values, CaseProblems problems)
    {
        KeyRelations.Exclude(values, problems, GasKeys.Composition, GasKeys.Gas);
        string name = values.Or(GasKeys.Gas, Air);
        bool exhaust = IsExhaust(values);
        if (values.Has(GasKeys.EquivalenceRatio) && !exhaust)
            problems.Add(values.LineOf(GasKeys.EquivalenceRatio), "gas.equivalence_ratio is for name = \"exhaust\"; set that name, or remove the ratio.");
        else if (exhaust && !values.Has(GasKeys.EquivalenceRatio))
            problems.Add(values.LineOf(GasKeys.Gas), "gas.name = \"exhaust\" needs equivalence_ratio, from 0 to 1; 0.3 is typical of a small jet engine.");
        if (!values.Has(GasKeys.Composition) && !exhaust && !values.Has(GasKeys.GladstoneDale) && KnownGas.Find(name) is null)
            problems.Add(values.LineOf(GasKeys.Gas), $"gas.name = {TomlLiteral.Of(name)} is not in the table of gases; {Cure(name, [.. KnownGas.Names, GasSettings.Exhaust])}, or give its gladstone_dale_m3_per_kg beside it.");
    }

    private static void Ambient(CaseValues values, CaseProblems problems)
    {
        string? ambient = values.Optional(GasKeys.AmbientName);
        CasePlace line = values.LineOf(GasKeys.AmbientName);
        if (ambient is not null && KnownGas.Find(ambient) is null)
            problems.Add(line, $"gas.ambient_name = {TomlLiteral.Of(ambient)} is not in the table of gases; {Cure(ambient, KnownGas.Names)}.");
        else if (ambient is not null && IsExhaust(values) && !Same(ambient, Air))
            problems.Add(line, $"gas.ambient_name = {TomlLiteral.Of(ambient)} cannot stand beside name = \"exhaust\" ({values.LineOf(GasKeys.Gas)}), around which is the air that the fuel was burnt in; remove it.");
        if (values.Number(GasKeys.Humidity) > 0 && !AirIsAround(values))
            problems.Add(values.LineOf(GasKeys.Humidity), "gas.relative_humidity_percent is for air, and the gas around the flow is not air; remove it, or set ambient_name = \"air\".");
    }

    private static void State(CaseValues values, CaseProblems problems)
    {
        KeyRelations.Exclude(values, problems, GasKeys.Density, GasKeys.Temperature);
        KeyRelations.Exclude(values, problems, GasKeys.Altitude, GasKeys.Pressure);
        KeyRelations.Exclude(values, problems, GasKeys.Altitude, GasKeys.Density);
        if (values.Number(GasKeys.Humidity) > 0)
            KeyRelations.Exclude(values, problems, GasKeys.Humidity, GasKeys.Density);
        if (!values.Has(GasKeys.AmbientName) && !values.Has(GasKeys.Density) && !values.Has(GasKeys.Composition) && !IsExhaust(values)
            && values.Has(GasKeys.GladstoneDale) && values.Optional(GasKeys.Gas) is { } name && KnownGas.Find(name) is null)
            problems.Add(values.LineOf(GasKeys.Gas), $"gas.name = {TomlLiteral.Of(name)} has no known molar mass; give ambient_density_kg_m3, or with ambient_name the gas around it.");
    }

    private static void Uncertainties(CaseValues values, CaseProblems problems)
    {
        if (!values.Has(GasKeys.Altitude))
        {
            KeyRelations.Uncertainty(values, problems, GasKeys.PressureSigma, GasKeys.Pressure);
            if (values.Has(GasKeys.TemperatureSigma) && !values.Has(GasKeys.Temperature))
                problems.Add(values.LineOf(GasKeys.TemperatureSigma), "gas.ambient_temperature_sigma_c is the uncertainty of ambient_temperature_c, which is not given; give that too, or remove the uncertainty.");
        }

        KeyRelations.Uncertainty(values, problems, GasKeys.DensitySigma, GasKeys.Density);
    }

    /// <summary>What only the values together show, such as a wavelength outside the table of this gas; looked for where nothing else is wrong.</summary>
    private static void Ranges(CaseValues values, CaseProblems problems)
    {
        try
        {
            _ = GasProperties.Of(GasMapping.Of(values));
        }
        catch (ConfigurationException exception)
        {
            CasePlace line = values.LineOf(GasKeys.Section.Keys.Where(values.Has).MinBy(key => values.LineOf(key).Line) ?? GasKeys.Gas);
            foreach (string sentence in exception.Problems)
                problems.Add(line, $"[gas]: {sentence}");
        }
    }

    private static bool IsExhaust(CaseValues values) => !values.Has(GasKeys.Composition) && Same(values.Or(GasKeys.Gas, Air), GasSettings.Exhaust);

    private static bool AirIsAround(CaseValues values) =>
        Same(values.Optional(GasKeys.AmbientName) ?? (IsExhaust(values) ? Air : values.Has(GasKeys.Composition) ? string.Empty : values.Or(GasKeys.Gas, Air)), Air);

    private static string Cure(string typed, IReadOnlyList<string> names)
    {
        string? near = NearestWord.Find(typed, names);
        return near is null ? $"it has {string.Join(", ", names)}; name one of these" : $"did you mean {TomlLiteral.Of(near)}? Name a gas of the table";
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
