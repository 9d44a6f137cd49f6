using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Lenses;
using BosFlow.Footage;

namespace BosFlow.Cli.Running;

/// <summary>Reads the lens file that a case names.</summary>
internal static class LensOpener
{
    /// <summary>Absolute path of the lens file; empty where the case names none.</summary>
    public static IReadOnlyList<string> Files(LoadedCase loaded) =>
        loaded.Experiment.LensFile is { } path ? [Path.GetFullPath(path, loaded.Folder)] : [];

    /// <summary>The case with the lens that its file describes.</summary>
    /// <exception cref="InputDataException">The file is missing, or holds for pictures of another size.</exception>
    /// <exception cref="ConfigurationException">The file says something impossible.</exception>
    public static LoadedCase Open(LoadedCase loaded, FootageInfo info)
    {
        if (Files(loaded) is not [string file])
            return loaded;
        LensParameters lens = LensFileReader.Read(file);
        if (lens.Width != info.Width || lens.Height != info.Height)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"{file} holds for pictures of {lens.Width} x {lens.Height} px and the footage has {info.Width} x {info.Height} px: calibrate with the camera's setting of the footage, or remove camera.lens from the case."));
        }

        return loaded with { Experiment = loaded.Experiment with { Lens = lens } };
    }
}
