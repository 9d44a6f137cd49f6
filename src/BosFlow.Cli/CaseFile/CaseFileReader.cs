using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile;

/// <summary>Reads a case file and checks everything that can be checked without looking at the footage.</summary>
internal static class CaseFileReader
{
    // A case file is a page of text; a file beyond this is something else.
    private const long LargestBytes = 4 * 1024 * 1024;

    /// <summary>Reads a case file.</summary>
    /// <param name="path">Absolute path of the file, or of a folder with a case.toml in it.</param>
    /// <returns>The case in SI units and where it came from.</returns>
    /// <exception cref="InputDataException">The file is missing, cannot be read, or is no text.</exception>
    /// <exception cref="ConfigurationException">Its contents cannot be used; holds every problem.</exception>
    public static LoadedCase Read(string path)
    {
        string file = Directory.Exists(path) ? Path.Combine(path, CaseTemplate.FileName) : path;
        return Parse(ReadText(file), file);
    }

    /// <summary>Checks the text of a case file.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">Absolute path it came from or will stand at.</param>
    /// <returns>The case in SI units and where it came from.</returns>
    /// <exception cref="ConfigurationException">It cannot be used; holds every problem.</exception>
    public static LoadedCase Parse(string text, string file)
    {
        var problems = new CaseProblems(Path.GetFileName(file));
        TomlText? toml = TomlReader.Read(text, problems);
        problems.ThrowIfAny();
        CaseValues values = Check(toml!, problems);
        CaseContradictions.Find(values, toml!, problems);
        problems.ThrowIfAny();
        string folder = Path.GetDirectoryName(file) ?? throw new InputDataException($"{file} is a folder, no case file.");
        string output = Path.GetFullPath(values.Or(OutputKeys.Folder, "run"), folder);
        return new LoadedCase(file, folder, output, CaseMapping.ToExperiment(values));
    }

    private static string ReadText(string file)
    {
        try
        {
            var info = new FileInfo(file);
            if (!info.Exists)
                throw new InputDataException($"There is no case file {file}; give the path of one, or make one with: bosflow new FOLDER");
            if (info.Length > LargestBytes)
                throw new InputDataException($"{file} is no case file: {info.Length / (1024 * 1024)} MB is too much for one; give the path of a case.toml.");
            string text = File.ReadAllText(file);
            if (text.Contains('\0', StringComparison.Ordinal))
                throw new InputDataException($"{file} is no text; give the path of a case.toml.");
            return text.Trim().Length > 0 ? text : throw new InputDataException($"{file} is empty; make a new case with: bosflow new FOLDER");
        }
        catch (UnauthorizedAccessException exception)
        {
            throw new InputDataException($"{file} may not be read by this user; change its permissions.", exception);
        }
    }

    private static CaseValues Check(TomlText toml, CaseProblems problems)
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
