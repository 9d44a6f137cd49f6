using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Cli.Scenes;
using BosFlow.Synthesis;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.CaseFile;

public sealed class CaseDeclarationTests
{
    public static TheoryData<string> AllKeys => [.. CaseSections.All.SelectMany(section => section.Keys).Select(key => key.FullName)];

    [Theory]
    [MemberData(nameof(AllKeys))]
    public void Key_ItsDefaultAndExample_AreAllowedByItself(string fullName)
    {
        CaseKey key = Find(fullName);

        foreach (string literal in new[] { key.Default, key.Example }.OfType<string>())
        {
            object? value = key.Read(TomlReader.Value(literal), out string? problem);
            Assert.Null(problem);
            Assert.NotNull(value);
        }

        Assert.EndsWith(".", key.Description, StringComparison.Ordinal);
        Assert.True(key.Default is not null || key.Example is not null);
    }

    [Fact]
    public void Defaults_WrittenOut_GiveTheSameCaseAsLeftOut()
    {
        // What the declaration calls the default must be what the program does without the key.
        var text = new StringBuilder();
        foreach (CaseSection section in CaseSections.All)
        {
            text.Append(CultureInfo.InvariantCulture, $"[{section.Name}]\n");
            if (section == FootageKeys.Section)
                text.Append("frames = \"f*.png\"\n");
            if (section == RigKeys.Section)
                text.Append("lens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\n");
            foreach (CaseKey key in section.Keys.Where(key => key.Default is not null))
                text.Append(CultureInfo.InvariantCulture, $"{key.Name} = {key.Default}\n");
        }

        LoadedCase written = CaseText.Parse(text.ToString());
        LoadedCase leftOut = CaseText.Parse(CaseText.Smallest + "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\n");

        Assert.Equal(leftOut.OutputFolder, written.OutputFolder);
        Assert.Equal(leftOut.Experiment.Displacement, written.Experiment.Displacement);
        Assert.Equal(leftOut.Experiment.Registration, written.Experiment.Registration);
        Assert.Equal(leftOut.Experiment.Gas, written.Experiment.Gas);
        Assert.Equal(leftOut.Experiment.Rig, written.Experiment.Rig);
        Assert.Equal(leftOut.Experiment.Flow, written.Experiment.Flow);
        Assert.Equal(leftOut.Experiment.Footage.Decoder, written.Experiment.Footage.Decoder);
        Assert.Equal(leftOut.Experiment.Reference.Combine, written.Experiment.Reference.Combine);
        Assert.Equal(leftOut.Experiment.KnifeEdgeDegrees, written.Experiment.KnifeEdgeDegrees);
    }

    [Fact]
    public void Template_AsWritten_LacksOnlyTheDistances()
    {
        IReadOnlyList<string> problems = CaseText.Problems(CaseTemplate.Write());

        Assert.All(problems, problem => Assert.Contains(": rig", problem, StringComparison.Ordinal));
    }

    [Fact]
    public void Template_WithItsRigLinesSet_IsACompleteCase()
    {
        string text = CaseTemplate.Write();
        foreach (string key in new[] { "lens_to_flow_mm", "flow_to_background_mm", "background_mm_per_px" })
            text = text.Replace("\n# " + key + " =", "\n" + key + " =", StringComparison.Ordinal);

        LoadedCase loaded = CaseText.Parse(text);

        Assert.Equal(["frames/*.png"], loaded.Experiment.Footage.Frames);
        Assert.Equal(1.2, loaded.Experiment.Rig!.LensToFlowMetres);
    }

    [Fact]
    public void Template_EveryKeyThatCanBeSet_StandsInIt()
    {
        string text = CaseTemplate.Write();

        Assert.All(
            CaseSections.All.SelectMany(section => section.Keys),
            key => Assert.Matches($"(?m)^(# )?{key.Name} = ", text));
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 104, line));
    }

    [Fact]
    public void Template_Uncertainties_StandBehindTheOtherKeysOfTheirSection()
    {
        string text = CaseTemplate.Write();

        Assert.All(CaseSections.All, section => Assert.Equal(section.Keys.OrderBy(key => key.IsUncertainty), section.Keys));
        Assert.All(
            CaseSections.All.SelectMany(section => section.Keys),
            key => Assert.Equal(key.Name.Contains("_sigma_", StringComparison.Ordinal), key.IsUncertainty));
        Assert.Equal(3, text.Split("# Uncertainties (one sigma) of the values above, all optional").Length - 1);
    }

    [Fact]
    public void Schema_EveryKey_HasTypeAndDescription()
    {
        JsonNode schema = JsonNode.Parse(CaseSchema.Write())!;

        foreach (CaseKey key in CaseSections.All.SelectMany(section => section.Keys))
        {
            JsonNode? property = schema["properties"]![key.Section]!["properties"]![key.Name];
            Assert.NotNull(property);
            Assert.StartsWith(key.Description, (string)property["description"]!, StringComparison.Ordinal);
        }

        Assert.False((bool)schema["additionalProperties"]!);
    }

    [Fact]
    public void CommittedDocuments_ComparedWithTheDeclaration_AreUpToDate()
    {
        Assert.True(
            File.ReadAllText(Repository.PathOf("docs", "case-file.schema.json")) == CaseSchema.Write(),
            "docs/case-file.schema.json is stale: bosflow case-keys --schema > docs/case-file.schema.json");
        Assert.True(
            File.ReadAllText(Repository.PathOf("docs", "case-file.md")) == CaseKeyTable.Write(),
            "docs/case-file.md is stale: bosflow case-keys --markdown > docs/case-file.md");
        Assert.True(
            File.ReadAllText(Repository.PathOf("docs", "recipe.md")) == SceneKeyTable.Write(),
            "docs/recipe.md is stale: bosflow case-keys --recipe > docs/recipe.md");
    }

    [Fact]
    public void ShortRecipeOfTheDocumentation_Read_MakesAScene()
    {
        SceneRecipe recipe = SceneRecipeReader.Parse(SceneKeyTable.ShortRecipe, "recipe.toml");

        Assert.Empty(recipe.Problems());
        Assert.Equal(9e-3, recipe.Shutter!.ReadoutSeconds);
    }

    [Fact]
    public void ShortCaseOfTheDocumentation_Parsed_IsComplete()
    {
        string page = CaseKeyTable.Write();
        int start = page.IndexOf("```toml\n", StringComparison.Ordinal) + "```toml\n".Length;

        LoadedCase loaded = CaseText.Parse(page[start..page.IndexOf("```", start, StringComparison.Ordinal)]);

        Assert.Equal(0.31e-3, loaded.Experiment.Rig!.BackgroundMetresPerPixel!.Value, 12);
    }

    private static CaseKey Find(string fullName) => CaseSections.All.SelectMany(section => section.Keys).Single(key => key.FullName == fullName);
}
