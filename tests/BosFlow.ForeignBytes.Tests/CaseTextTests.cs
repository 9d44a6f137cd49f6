using System.Globalization;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Scenes;
using CsCheck;

namespace BosFlow.ForeignBytes.Tests;

/// <summary>What must hold for any text that is given as a case file or a recipe.</summary>
public sealed class CaseTextTests
{
    private const string Seed = "0N0XIzNsQ0O2";

    private static readonly string[] Tokens =
        ["[rig]", "[footage]", "[[", "]]", "{", "}", "=", ".", ",", "\n", "\"", "'", "\"\"\"", "#", "\\u", "\\", "frames", "video", "lens_to_flow_mm", "polygons", "true", "1", "-1e999", "nan", "1979-05-27"];

    private static readonly Gen<string> LikeToml = Gen.OneOf(Gen.Int[0, Tokens.Length - 1].Select(token => Tokens[token]), Gen.String[0, 5]).Array[0, 60].Select(string.Concat);

    [Fact]
    public void Parse_AnyLetters_ReadsOrRefuses() => Gen.String.Sample(text => AnswersAll(text), iter: 1500, seed: Seed);

    [Fact]
    public void Parse_AnyTokens_ReadsOrRefuses() => LikeToml.Sample(text => AnswersAll(text), iter: 1500, seed: Seed);

    [Fact]
    public void Parse_AnyRig_KeepsItsNumbers() =>
        Gen.Select(Gen.Double[1, 1e5], Gen.Double[1, 1e5]).Sample(
            (lens, board) =>
            {
                string text = string.Create(CultureInfo.InvariantCulture, $"[footage]\nframes = \"a.png\"\n[reference]\nimage = \"b.png\"\n[rig]\nlens_to_flow_mm = {lens:F6}\nflow_to_background_mm = {board:F6}\nbackground_mm_per_px = 0.3\n");
                LoadedCase loaded = CaseFileReader.Parse(text, "/data/case.toml");
                return Math.Abs((loaded.Experiment.Rig!.LensToFlowMetres * 1000) - lens) < 1e-6 && Math.Abs((loaded.Experiment.Rig.FlowToBackgroundMetres * 1000) - board) < 1e-6;
            },
            iter: 300,
            seed: Seed);

    private static bool AnswersAll(string text) =>
        Answers(() => CaseFileReader.Parse(text, "/data/case.toml")) && Answers(() => PlanCaseReader.Parse(text, "/data/case.toml", [])) && Answers(() => SceneRecipeReader.Parse(text, "recipe.toml"));

    // Any other exception fails the test and shows the text.
    private static bool Answers(Action read)
    {
        try
        {
            read();
        }
        catch (ConfigurationException refusal)
        {
            return refusal.Problems.All(problem => problem.Contains(".toml", StringComparison.Ordinal));
        }

        return true;
    }
}
