using System.Globalization;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;

namespace BosFlow.Cli.CaseFile;

/// <summary>Sentences for keys and sections that do not exist, with what was probably meant.</summary>
internal static class UnknownKey
{
    /// <summary>A key that its section does not have.</summary>
    /// <param name="entry">The key in the file.</param>
    /// <param name="section">Its section.</param>
    public static string Sentence(TomlEntry entry, CaseSection section)
    {
        string start = $"{section.Name}.{entry.Key} is not known";
        if (OtherUnit(entry, section) is { } unitHint)
            return $"{start}; {unitHint}";
        if (CaseSections.All.FirstOrDefault(other => other.Keys.Any(key => key.Name == entry.Key)) is { } home)
            return $"{start}; move it to [{home.Name}], where it belongs.";
        string? near = NearestWord.Find(entry.Key, section.Keys.Select(key => key.Name));
        return near is null
            ? $"{start}; [{section.Name}] has {string.Join(", ", section.Keys.Select(key => key.Name))}."
            : $"{start}; did you mean {near}?";
    }

    /// <summary>A section that does not exist.</summary>
    /// <param name="name">Its name in the file.</param>
    public static string SectionSentence(string name)
    {
        string[] parts = name.Split('.');
        if (parts.Length == 2 && CaseSections.All.Any(section => section.Name == parts[0] && section.Keys.Any(key => key.Name == parts[1])))
            return $"there is no section [{name}]; {parts[1]} is a key of [{parts[0]}], so write {parts[1]} = ... under that heading.";
        string? near = NearestWord.Find(name, CaseSections.All.Select(section => section.Name));
        return near is null
            ? $"there is no section [{name}]; a case file has {string.Join(", ", CaseSections.All.Select(section => $"[{section.Name}]"))}."
            : $"there is no section [{name}]; did you mean [{near}]?";
    }

    /// <summary>A key above the first section.</summary>
    /// <param name="key">Its name in the file.</param>
    public static string OutsideSentence(string key)
    {
        CaseSection[] homes = [.. CaseSections.All.Where(section => section.Keys.Any(known => known.Name == key))];
        return homes.Length switch
        {
            0 => $"{key} stands above the first section and is not known; keys stand under a heading such as [footage].",
            _ => $"{key} stands above the first section; put it under {string.Join(" or ", homes.Select(home => $"[{home.Name}]"))}.",
        };
    }

    private static string? OtherUnit(TomlEntry entry, CaseSection section)
    {
        string stem = UnitSuffix.StemOf(entry.Key);
        UnitSuffix? typed = UnitSuffix.OfKey(entry.Key);
        CaseKey? meant = section.Keys.FirstOrDefault(key => UnitSuffix.OfKey(key.Name) is not null && UnitSuffix.StemOf(key.Name) == stem);
        if (meant is null || UnitSuffix.OfKey(meant.Name) is not { } wanted)
            return null;
        if (typed is null)
            return $"its unit is missing; write {meant.Name}, in {wanted.Words}.";
        string example = entry.Value.TryNumber(out double value) && typed.To(wanted, value, meant.IsUncertainty) is { } converted
            ? string.Create(CultureInfo.InvariantCulture, $"{meant.Name} = {converted:G10}")
            : meant.Name;
        return $"this is given in {wanted.Words}, not in {typed.Words}; write {example}.";
    }
}
