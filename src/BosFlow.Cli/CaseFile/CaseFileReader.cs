using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile;

/// <summary>Reads a case file and checks everything that can be checked without looking at the footage.</summary>
internal static class CaseFileReader
{
    /// <summary>Reads a case file.</summary>
    /// <param name="path">Absolute path of the file, or of a folder with a case.toml in it.</param>
    /// <returns>The case in SI units and where it came from.</returns>
    /// <exception cref="InputDataException">The file is missing, cannot be read, or is no text.</exception>
    /// <exception cref="ConfigurationException">Its contents cannot be used; holds every problem.</exception>
    public static LoadedCase Read(string path)
    {
        string file = FileOf(path);
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
        CaseValues values = CaseEntries.Read(toml!, problems);
        CaseContradictions.Find(values, toml!, problems);
        problems.ThrowIfAny();
        string folder = Path.GetDirectoryName(file) ?? throw new InputDataException($"{file} is a folder, no case file; name the file in it.");
        string output = Path.GetFullPath(values.Or(OutputKeys.Folder, "run"), folder);
        return new LoadedCase(file, folder, output, CaseMapping.ToExperiment(values));
    }

    /// <summary>The case file that a path means: itself, or the one in a folder.</summary>
    /// <param name="path">Absolute path of the file, or of a folder with a case.toml in it.</param>
    public static string FileOf(string path) => Directory.Exists(path) ? Path.Combine(path, CaseTemplate.FileName) : path;

    /// <summary>The text of a case file.</summary>
    /// <param name="file">Absolute path of the file.</param>
    /// <exception cref="InputDataException">The file is missing, cannot be read, or is no text.</exception>
    public static string ReadText(string file) => File.Exists(file)
        ? InputText.Read(file, "case file", "give the path of a case.toml, or make a new case with bosflow new FOLDER")
        : throw new InputDataException($"There is no case file {file}; give the path of one, or make one with: bosflow new FOLDER");
}
