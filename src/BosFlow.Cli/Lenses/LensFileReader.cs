using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.CommandLine;

namespace BosFlow.Cli.Lenses;

/// <summary>Reads a lens file. Format: docs/file-formats.md, "Lens file".</summary>
internal static class LensFileReader
{
    /// <summary>Reads a lens file.</summary>
    /// <param name="path">Absolute path.</param>
    /// <exception cref="InputDataException">The file is missing, too large, no text or not readable.</exception>
    /// <exception cref="ConfigurationException">Its contents cannot be used; holds every problem.</exception>
    public static LensParameters Read(string path) => Parse(ReadText(path), Path.GetFileName(path));

    /// <summary>Checks the text of a lens file.</summary>
    /// <param name="text">The text.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <exception cref="ConfigurationException">It cannot be used; holds every problem.</exception>
    public static LensParameters Parse(string text, string name)
    {
        var problems = new CaseProblems(name);
        TomlText? toml = TomlReader.Read(text, problems);
        problems.ThrowIfAny();
        var values = new CaseValues();
        foreach (TomlSection heading in toml!.Sections.Where(heading => heading.Repeated || LensKeys.Sections.All(section => section.Name != heading.Name)))
            problems.Add(heading.Line, $"there is no section [{heading.Name}]; a lens file has {string.Join(", ", LensKeys.Sections.Select(section => $"[{section.Name}]"))}, so remove it.");
        foreach (TomlEntry entry in toml.Entries)
            Take(entry, values, problems);
        bool fisheye = values.Or(LensKeys.Model, LensKind.Pinhole) == LensKind.Fisheye;
        CaseKey[] needed = [LensKeys.Model, LensKeys.Width, LensKeys.Height, LensKeys.FocalX, LensKeys.FocalY, LensKeys.CentreX, LensKeys.CentreY];
        foreach (CaseKey key in needed.Where(key => !values.Has(key)))
            problems.Add(0, $"{key.FullName} is missing; write the file again with bosflow calibrate.");
        IReadOnlyList<NumberKey> foreign = fisheye ? LensKeys.Tangential : [LensKeys.Radial[3]];
        foreach (NumberKey key in foreign.Where(values.Has))
            problems.Add(values.LineOf(key), $"{key.FullName} is no number of a {(fisheye ? "fisheye" : "pinhole")} lens; remove it, or change lens.model.");
        problems.ThrowIfAny();
        double Term(NumberKey key) => values.Number(key) ?? 0;
        return new LensParameters
        {
            Kind = values.Or(LensKeys.Model, default),
            Width = values.Or(LensKeys.Width, 0),
            Height = values.Or(LensKeys.Height, 0),
            FocalX = Term(LensKeys.FocalX),
            FocalY = Term(LensKeys.FocalY),
            CentreX = Term(LensKeys.CentreX),
            CentreY = Term(LensKeys.CentreY),
            Radial1 = Term(LensKeys.Radial[0]),
            Radial2 = Term(LensKeys.Radial[1]),
            Radial3 = Term(LensKeys.Radial[2]),
            Radial4 = Term(LensKeys.Radial[3]),
            Tangential1 = Term(LensKeys.Tangential[0]),
            Tangential2 = Term(LensKeys.Tangential[1]),
        };
    }

    private static void Take(TomlEntry entry, CaseValues values, CaseProblems problems)
    {
        CaseSection? section = LensKeys.Sections.FirstOrDefault(known => known.Name == entry.Section);
        CaseKey? key = section?.Keys.FirstOrDefault(known => known.Name == entry.Key);
        if (key is null)
        {
            // A strange section was told already.
            if (section is not null || entry.Section.Length == 0)
            {
                string? near = NearestWord.Find(entry.Key, (section?.Keys ?? []).Select(known => known.Name));
                problems.Add(entry.Line, $"{entry.Key} is not known here; {(near is null ? "remove it" : $"did you mean {near}?")}{(near is null ? "." : string.Empty)}");
            }

            return;
        }

        object? value = key.Read(entry.Value, out string? problem);
        values.Add(key, value, entry.Line);
        if (problem is not null)
            problems.Add(entry.Line, $"{key.FullName} = {entry.Value.Quote} {problem}");
    }

    private static string ReadText(string path) => File.Exists(path)
        ? InputText.Read(path, "lens file", "give the file that bosflow calibrate wrote")
        : throw new InputDataException($"There is no lens file {path}; make one with bosflow calibrate, or correct [camera] lens.");
}
