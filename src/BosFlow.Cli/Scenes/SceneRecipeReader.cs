using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Reads a scene recipe with the same checks as a case file: unknown keys, units, ranges, every problem at once.</summary>
internal static class SceneRecipeReader
{
    /// <summary>Reads a recipe.</summary>
    /// <param name="file">Absolute path.</param>
    /// <exception cref="InputDataException">The file is missing, unreadable or no text.</exception>
    /// <exception cref="ConfigurationException">Its contents cannot be used; holds every problem.</exception>
    public static SceneFile Read(string file) => File.Exists(file)
        ? ParseFile(InputText.Read(file, "recipe", "give the path of a recipe.toml"), Path.GetFileName(file))
        : throw new InputDataException($"There is no recipe {file}; take one of the examples in the folder synthetic-frames.");

    /// <summary>Checks the text of a recipe.</summary>
    /// <param name="text">The text.</param>
    /// <param name="fileName">Name for messages.</param>
    /// <exception cref="ConfigurationException">It cannot be used; holds every problem.</exception>
    public static SceneRecipe Parse(string text, string fileName) => ParseFile(text, fileName).Recipe;

    private static SceneFile ParseFile(string text, string fileName)
    {
        var problems = new CaseProblems(fileName);
        TomlText? toml = TomlReader.Read(text, problems);
        problems.ThrowIfAny();
        CaseValues values = Check(toml!, problems);
        CheckWhatIsNeeded(values, problems);
        GasContradictions.Find(values, problems);
        VibrationMapping.FindContradictions(values, problems);
        RecorderMapping.FindContradictions(values, problems);
        DistortionMapping.FindContradictions(values, problems);
        problems.ThrowIfAny();
        return new SceneFile(SceneRecipeMapping.ToRecipe(values), VideoKeys.ToEncoding(values));
    }

    private static CaseValues Check(TomlText toml, CaseProblems problems)
    {
        Dictionary<string, CaseSection> sections = SceneKeys.Sections.ToDictionary(section => section.Name);
        foreach (TomlSection heading in toml.Sections.Where(heading => heading.Repeated || !sections.ContainsKey(heading.Name)))
        {
            string sentence = sections.ContainsKey(heading.Name)
                ? $"[[{heading.Name}]] has double brackets; write [{heading.Name}]."
                : $"there is no section [{heading.Name}]; a recipe has {string.Join(", ", sections.Keys.Select(name => $"[{name}]"))}.";
            problems.Add(heading.Line, sentence);
        }

        var values = new CaseValues();
        foreach (TomlEntry entry in toml.Entries)
        {
            if (sections.TryGetValue(entry.Section, out CaseSection? section))
                CheckEntry(entry, section, values, problems);
            else if (entry.Section.Length == 0)
                problems.Add(entry.Line, $"{entry.Key} stands above the first section; keys stand under a heading such as [scene].");
        }

        return values;
    }

    private static void CheckEntry(TomlEntry entry, CaseSection section, CaseValues values, CaseProblems problems)
    {
        CaseKey? key = section.Keys.FirstOrDefault(known => known.Name == entry.Key);
        if (key is null)
        {
            string? near = NearestWord.Find(entry.Key, section.Keys.Select(known => known.Name));
            string hint = near is null ? $"[{section.Name}] has {string.Join(", ", section.Keys.Select(known => known.Name))}." : $"did you mean {near}?";
            problems.Add(entry.Line, $"{section.Name}.{entry.Key} is not known; {hint}");
            return;
        }

        object? value = key.Read(entry.Value, out string? problem);
        values.Add(key, value, entry.Line);
        if (problem is not null)
            problems.Add(entry.Line, $"{key.FullName} = {entry.Value.Quote} {problem}");
    }

    private static void CheckWhatIsNeeded(CaseValues values, CaseProblems problems)
    {
        foreach (CaseKey key in (CaseKey[])[SceneKeys.Width, SceneKeys.Height, SceneKeys.Frames, SceneKeys.Kind])
        {
            if (!values.Has(key))
                problems.Add(0, $"{key.FullName} is missing; give {key.Allowed}.");
        }

        if (!values.Has(SceneKeys.Kind) || !problems.None)
            return;
        FlowKind kind = values.Or(SceneKeys.Kind, FlowKind.Shift);
        IReadOnlyList<CaseKey> needed = SceneKeys.NeededBy(kind);
        string word = SceneKeys.Kind.Choices.First(choice => choice.Value == kind).Word;
        foreach (CaseKey key in needed.Where(key => !values.Has(key)))
            problems.Add(0, $"{key.FullName} is missing; a flow of the kind {word} needs it: {key.Description}");
        CaseSection flow = SceneKeys.Sections.First(section => section.Name == "flow");
        foreach (CaseKey key in flow.Keys.Where(key => values.Has(key) && key != SceneKeys.Kind && !needed.Contains(key)))
        {
            if (key != SceneKeys.Phase || kind != FlowKind.Sinusoid)
                problems.Add(values.LineOf(key), $"{key.FullName} has no meaning for a flow of the kind {word}; remove it.");
        }

        if (SceneKeys.NeedsRig(kind) && !(values.Has(RigKeys.LensToFlow) && values.Has(RigKeys.FlowToBackground)))
            problems.Add(0, $"rig.lens_to_flow_mm and rig.flow_to_background_mm are missing; a flow of the kind {word} needs a [rig].");
    }
}
