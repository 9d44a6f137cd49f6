using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Scenes;
using BosFlow.Synthesis;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Scenes;

/// <summary>The committed scenes are what their recipes give, byte for byte.</summary>
public sealed class CommittedScenesTests
{
    private const long LargestSceneBytes = 400 * 1024;

    public static TheoryData<string> Names => ["uniform-shift", "sinusoid", "hot-plume", "shaken-plume", "hot-blob", "oblique-shock"];

    [Theory]
    [MemberData(nameof(Names))]
    public void Recipe_RenderedAgain_GivesEveryFileByteForByte(string name)
    {
        using var folder = new TemporaryFolder();
        string committed = Repository.PathOf("synthetic-frames", name);
        string text = File.ReadAllText(Path.Combine(committed, SceneFolder.RecipeName));
        var scene = new SyntheticScene(SceneRecipeReader.Parse(text, SceneFolder.RecipeName), CancellationToken.None);
        string made = folder.PathOf(name);
        SceneFolder.Write(made, scene, text, encoding: null, _ => { }, CancellationToken.None);

        string[] files = [.. Directory.EnumerateFiles(made, "*", SearchOption.AllDirectories).Select(file => Path.GetRelativePath(made, file)).Order(StringComparer.Ordinal)];
        Assert.Equal(scene.Recipe.FrameCount + 3, files.Length);
        Assert.All(files, file => Assert.True(
            File.ReadAllBytes(Path.Combine(made, file)).AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(committed, file))), $"{file} differs"));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Scene_Committed_IsSmallAndItsCaseIsInOrder(string name)
    {
        string committed = Repository.PathOf("synthetic-frames", name);
        Assert.True(Directory.EnumerateFiles(committed, "*", SearchOption.AllDirectories).Sum(file => new FileInfo(file).Length) <= LargestSceneBytes);
        LoadedCase loaded = CaseFileReader.Read(Path.Combine(committed, SceneFolder.CaseName));
        Assert.Equal(name is not ("uniform-shift" or "sinusoid"), loaded.Experiment.Rig is not null);
    }
}
