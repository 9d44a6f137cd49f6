using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.CaseFile;

/// <summary>Reads a case that is to be planned: a file without or with footage, options, or both.</summary>
internal static class PlanCaseReader
{
    // What an option says takes the place of what the file says in other words.
    private static readonly (CaseKey Option, CaseKey GivesWay)[] OtherWords =
    [
        (RigKeys.FocalLength, RigKeys.BackgroundScale), (RigKeys.FocalLength, RigKeys.BackgroundScaleSigma),
        (RigKeys.PixelPitch, RigKeys.BackgroundScale), (RigKeys.PixelPitch, RigKeys.BackgroundScaleSigma),
        (GasKeys.Temperature, GasKeys.Density), (GasKeys.Temperature, GasKeys.DensitySigma),
        (GasKeys.Density, GasKeys.Temperature), (GasKeys.Density, GasKeys.TemperatureSigma), (GasKeys.Density, GasKeys.Altitude), (GasKeys.Density, GasKeys.Humidity),
        (GasKeys.Altitude, GasKeys.Pressure), (GasKeys.Altitude, GasKeys.Density), (GasKeys.Altitude, GasKeys.DensitySigma),
        (GasKeys.Pressure, GasKeys.Altitude), (GasKeys.Gas, GasKeys.Composition), (GasKeys.Gas, GasKeys.EquivalenceRatio),
    ];

    /// <summary>Reads and checks.</summary>
    /// <param name="path">Absolute path of a case file or a folder with one; null for options alone.</param>
    /// <param name="options">Options as typed, by key; they win over the file.</param>
    /// <returns>The case.</returns>
    /// <exception cref="InputDataException">The file, or the description of a printed board that it names, cannot be read.</exception>
    /// <exception cref="ConfigurationException">File or options cannot be used; holds every problem.</exception>
    public static PlanCase Read(string? path, IReadOnlyList<(CaseKey Key, string Typed)> options)
    {
        string? file = path is null ? null : CaseFileReader.FileOf(path);
        return Parse(file is null ? string.Empty : CaseFileReader.ReadText(file), file, options);
    }

    /// <summary>Checks the text of a case file and options.</summary>
    /// <param name="text">The text; empty for options alone.</param>
    /// <param name="file">Absolute path that it came from; null for none.</param>
    /// <param name="options">Options as typed, by key; they win over the file.</param>
    /// <returns>The case.</returns>
    /// <exception cref="ConfigurationException">File or options cannot be used; holds every problem.</exception>
    public static PlanCase Parse(string text, string? file, IReadOnlyList<(CaseKey Key, string Typed)> options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var problems = new CaseProblems(Path.GetFileName(file));
        TomlText? toml = TomlReader.Read(text, problems);
        problems.ThrowIfAny();
        CaseValues values = CaseEntries.Read(toml!, problems);
        foreach ((CaseKey key, string typed) in options)
            Add(values, key, typed, problems);
        GiveWay(values, [.. options.Select(option => option.Key)]);
        CaseContradictions.FindForPlan(values, problems);
        problems.ThrowIfAny();
        return new PlanCase(file, PlanMapping.Request(values, Printed(values, file)), PlanMapping.Limits(values));
    }

    // A board that is planned has no description yet, whatever the case says: only one that is there is read.
    private static BoardSettings? Printed(CaseValues values, string? file)
    {
        if (file is null || values.Optional(BoardKeys.Description) is not { } description)
            return null;
        string path = Path.GetFullPath(description, Path.GetDirectoryName(file)!);
        return File.Exists(path) ? BoardFile.ReadWithoutDots(path).Board.Settings : null;
    }

    private static void Add(CaseValues values, CaseKey key, string typed, CaseProblems problems)
    {
        object? value = OptionText.Read(key, typed, out string? problem);
        values.Add(key, value, new CasePlace(0, CaseOption.NameOf(key)));
        if (problem is not null)
            problems.AddPlain($"{CaseOption.NameOf(key)} {typed} {problem}");
    }

    private static void GiveWay(CaseValues values, HashSet<CaseKey> given)
    {
        foreach ((CaseKey option, CaseKey old) in OtherWords)
        {
            if (given.Contains(option) && !given.Contains(old))
                values.Remove(old);
        }

        // Another kind of flow by option makes the file's description of its own kind idle.
        if (!given.Contains(ExpectedKeys.Kind) || !values.IsUsable(ExpectedKeys.Kind))
            return;
        ExpectedKeyUse use = ExpectedKeyUse.Of(values.Or(ExpectedKeys.Kind, default));
        foreach (CaseKey key in ExpectedKeyUse.Describing.Where(key => !given.Contains(key) && !use.Takes(key)))
            values.Remove(key);
    }
}
