using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Lenses;
using BosFlow.Cli.Scenes;
using BosFlow.Results.Runs;
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

    public static IReadOnlyList<Sample> Lenses(string folder)
    {
        LensParameters[] lenses =
        [
            new() { Kind = LensKind.Pinhole, Width = 1280, Height = 720, FocalX = 900, FocalY = 901, CentreX = 640, CentreY = 360, Radial1 = 0.1, Tangential2 = 1e-4 },
            new() { Kind = LensKind.Fisheye, Width = 640, Height = 480, FocalX = 300, FocalY = 300, CentreX = 320, CentreY = 240, Radial4 = 1e-3 },
        ];
        return [.. lenses.Select(lens => LensFile(Path.Combine(folder, $"{lens.Kind}.toml"), lens))];
    }

    private static Sample LensFile(string path, LensParameters lens)
    {
        var view = new CalibratedView(new TargetView("a.png", [new TargetPoint(0, 0, 100, 100)]), new TargetPose((0, 0, 0), (0, 0, 1)), [(0.1, 0.2)]);
        var calibration = new LensCalibration { Lens = lens, StandardUncertainty = lens, Views = [view], Rejected = [] };
        File.WriteAllText(path, LensFileWriter.Text(calibration, "checkerboard", [new RunInput("calibration", "a.png", 3, new string('0', 64))], DateTimeOffset.UnixEpoch));
        return new Sample(path, () => LensFileReader.Read(path));
    }

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
