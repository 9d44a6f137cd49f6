using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Scenes;
using BosFlow.TestKit;

namespace BosFlow.ForeignBytes.Readers;

/// <summary>Case files, plans and recipes of the committed scenes and examples.</summary>
internal static class TextInputs
{
    private static readonly string[] Scenes = ["hot-blob", "hot-plume", "oblique-shock", "shaken-plume"];

    private static readonly string[] PlannedRigs = ["onboard-plume.toml", "bench-candle.toml"];

    public static IReadOnlyList<Sample> Cases(string folder) => Copies(folder, FilesOf("case.toml"), file => CaseFileReader.Read(file));

    public static IReadOnlyList<Sample> Plans(string folder) =>
        Copies(folder, PlannedRigs.Select(name => Repository.PathOf("docs", "examples", name)), file => PlanCaseReader.Read(file, []));

    public static IReadOnlyList<Sample> Recipes(string folder) => Copies(folder, FilesOf("recipe.toml"), file => SceneRecipeReader.Read(file));

    private static IEnumerable<string> FilesOf(string name) => Scenes.Select(scene => Repository.PathOf("synthetic-frames", scene, name));

    private static List<Sample> Copies(string folder, IEnumerable<string> files, Action<string> read)
    {
        List<Sample> samples = [];
        foreach (string file in files)
        {
            string of = FormattableString.Invariant($"{samples.Count}");
            string copy = Path.Combine(Directory.CreateDirectory(Path.Combine(folder, of)).FullName, Path.GetFileName(file));
            File.Copy(file, copy);
            samples.Add(new Sample(copy, () => read(copy)));
        }

        return samples;
    }
}
