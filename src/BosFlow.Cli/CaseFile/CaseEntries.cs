using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile;

/// <summary>Checks the sections and keys of a case file one by one.</summary>
internal static class CaseEntries
{
    /// <summary>Reads every key of a file by its declaration.</summary>
    /// <param name="toml">The file.</param>
    /// <param name="problems">Receives a sentence for each section and key that is not known and each value that cannot be used.</param>
    /// <returns>The values that can be used.</returns>
    public static CaseValues Read(TomlText toml, CaseProblems problems)
    {
        Dictionary<string, CaseSection> sections = CaseSections.All.ToDictionary(section => section.Name);
        HashSet<string> unknownSections = [];
        foreach (TomlSection heading in toml.Sections)
        {
            if (heading.Repeated && sections.ContainsKey(heading.Name))
                problems.Add(heading.Line, $"[[{heading.Name}]] has double brackets; write [{heading.Name}].");
            else if (!sections.ContainsKey(heading.Name) && unknownSections.Add(heading.Name))
                problems.Add(heading.Line, UnknownKey.SectionSentence(heading.Name));
        }

        var values = new CaseValues();
        foreach (TomlEntry entry in toml.Entries)
        {
            if (sections.TryGetValue(entry.Section, out CaseSection? section))
                CheckEntry(entry, section, values, problems);
            else if (entry.Section.Length == 0)
                problems.Add(entry.Line, UnknownKey.OutsideSentence(entry.Key));
            else if (unknownSections.Add(entry.Section))
                problems.Add(entry.Line, UnknownKey.SectionSentence(entry.Section));
        }

        return values;
    }

    private static void CheckEntry(TomlEntry entry, CaseSection section, CaseValues values, CaseProblems problems)
    {
        CaseKey? key = section.Keys.FirstOrDefault(known => known.Name == entry.Key);
        if (key is null)
        {
            problems.Add(entry.Line, UnknownKey.Sentence(entry, section));
            return;
        }

        object? value = key.Read(entry.Value, out string? problem);
        values.Add(key, value, entry.Line);
        if (problem is not null)
            problems.Add(entry.Line, $"{key.FullName} = {entry.Value.Quote} {problem}");
    }
}
