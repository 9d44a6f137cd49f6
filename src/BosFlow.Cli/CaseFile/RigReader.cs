using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Optics;

namespace BosFlow.Cli.CaseFile;

/// <summary>Reads the rig alone of a case whose footage need not be there yet.</summary>
internal static class RigReader
{
    /// <summary>Reads the rig; each key of the file is checked, but nothing between keys outside [rig].</summary>
    /// <param name="path">Absolute path of the file, or of a folder with a case.toml in it.</param>
    /// <returns>The rig; null where the file has none.</returns>
    /// <exception cref="InputDataException">The file is missing, cannot be read, or is no text.</exception>
    /// <exception cref="ConfigurationException">Its contents cannot be used; holds every problem.</exception>
    public static RigGeometry? Read(string path)
    {
        string file = CaseFileReader.FileOf(path);
        var problems = new CaseProblems(Path.GetFileName(file));
        TomlText? toml = TomlReader.Read(CaseFileReader.ReadText(file), problems);
        problems.ThrowIfAny();
        CaseValues values = CaseEntries.Read(toml!, problems);
        CaseContradictions.FindInRig(values, toml!, problems);
        problems.ThrowIfAny();
        return CaseMapping.Rig(values);
    }
}
