using System.Text.RegularExpressions;
using BosFlow.Cli.CaseFile;

namespace BosFlow.Cli.Queue;

/// <summary>The cases that a command line means.</summary>
/// <param name="Files">Absolute paths of the case files, in the order of the work, each once.</param>
/// <param name="IsQueue">Whether several paths or a folder of cases were given, even where only one case is in it.</param>
/// <param name="Passed">Absolute paths of files in a folder of cases that are no cases.</param>
internal sealed partial record CaseList(IReadOnlyList<string> Files, bool IsQueue, IReadOnlyList<string> Passed)
{
    /// <summary>Finds the cases.</summary>
    /// <param name="paths">Absolute paths of case files, of folders with a case.toml in them, or of folders of cases.</param>
    /// <exception cref="InputDataException">A folder holds no case, or may not be read.</exception>
    public static CaseList Of(IReadOnlyList<string> paths)
    {
        var files = new List<string>();
        var passed = new List<string>();
        bool isQueue = paths.Count > 1;
        foreach (string path in paths)
        {
            if (!Directory.Exists(path) || File.Exists(CaseFileReader.FileOf(path)))
            {
                files.Add(CaseFileReader.FileOf(path));
                continue;
            }

            isQueue = true;
            files.AddRange(InFolder(path, passed));
        }

        return new CaseList([.. files.Distinct(StringComparer.Ordinal)], isQueue, passed);
    }

    // A plan or the recipe of a scene is a .toml file too; a case of footage has footage.
    private static List<string> InFolder(string folder, List<string> passed)
    {
        try
        {
            string[] tables = [.. Directory.EnumerateFiles(folder, "*.toml").Order(StringComparer.Ordinal)];
            string[] cases = [.. tables.Where(HasFootage)];
            passed.AddRange(tables.Except(cases));
            IEnumerable<string> below = Directory.EnumerateDirectories(folder).Order(StringComparer.Ordinal).Select(CaseFileReader.FileOf).Where(File.Exists);
            List<string> found = [.. cases, .. below];
            return found.Count > 0 ? found : throw new InputDataException(
                $"There is no case in the folder {folder}: no {CaseTemplate.FileName}, no other .toml file with a [footage] section, no folder with a {CaseTemplate.FileName} in it. Give the path of a case, or make one with: bosflow new FOLDER");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"The folder {folder} cannot be read ({exception.Message.TrimEnd('.')}); change its permissions.", exception);
        }
    }

    // A file that cannot be read stays in the list: preparing the case says why.
    private static bool HasFootage(string file)
    {
        try
        {
            return FootageTable().IsMatch(CaseFileReader.ReadText(file));
        }
        catch (InputDataException)
        {
            return true;
        }
    }

    [GeneratedRegex(@"^[ \t]*(\[[ \t]*footage[ \t]*\]|footage[ \t]*[.=])", RegexOptions.Multiline)]
    private static partial Regex FootageTable();
}
