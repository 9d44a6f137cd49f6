using BosFlow.Camera;
using BosFlow.Planning;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Planning;

/// <summary>What cannot be is refused with one sentence that says what.</summary>
public sealed class PlanBadInputTests
{
    private static readonly PlanRequest Good = new() { Rig = ReferenceRigs.Laboratory, Camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1080 }, Flow = new ExpectedFlow.Plume(12e-3, 600, null) };

    public static TheoryData<PlanRequest, string> Impossible => new()
    {
        { Good with { Rig = Good.Rig with { FlowToBackgroundMetres = -0.1 } }, "in front of the flow" },
        { Good with { Rig = Good.Rig with { LensToFlowMetres = 0 } }, "lens to the flow" },
        { Good with { Rig = Good.Rig with { FNumber = 0 } }, "f-number" },
        { Good with { Rig = Good.Rig with { FNumber = null } }, "f-number is not given" },
        { Good with { Rig = Good.Rig with { FocalLengthMetres = 1.2 } }, "not shorter than the distance to the flow" },
        { Good with { Rig = Good.Rig with { FocalLengthMetres = double.NaN } }, "focal length" },
        { Good with { Camera = Good.Camera with { FocusMetres = 0.04 } }, "inside the lens's focal length" },
        { Good with { Camera = Good.Camera with { PictureWidth = 0 } }, "picture" },
        { Good with { Camera = Good.Camera with { ExposureSeconds = 0 } }, "exposure" },
        { Good with { Board = Good.Board with { DotMetres = -1e-3 } }, "diameter of a dot" },
        { Good with { Board = Good.Board with { Contrast = 0 } }, "contrast" },
        { Good with { ReferenceFrames = 0 }, "reference frames" },
        { Good with { Flow = new ExpectedFlow.Plume(12e-3, 250, null) }, "not hotter" },
        { Good with { Flow = new ExpectedFlow.Jet(10e-3, 250, 0.1, null, null) }, "not hotter" },
        { Good with { Flow = new ExpectedFlow.Jet(0.3, 900, 0.1, null, null) }, "wider than the view" },
        { Good with { Flow = new ExpectedFlow.Jet(10e-3, 900, 0.1, null, 5e5) }, "shock cells" },
        { Good with { Flow = new ExpectedFlow.Jet(10e-3, 900, -0.1, null, null) }, "distance from the nozzle" },
        { Good with { Flow = new ExpectedFlow.HeatedPlate(280, 0.1, 0.2) }, "not hotter than the air" },
        { Good with { Flow = new ExpectedFlow.HeatedPlate(500, 3, 0.2) }, "turbulent" },
        { Good with { Flow = new ExpectedFlow.Shock(1.2, 20, 0.1, 1e-3) }, "detaches" },
        { Good with { Flow = new ExpectedFlow.Shock(0.8, 5, 0.1, 1e-3) }, "supersonic" },
        { Good with { Flow = new ExpectedFlow.Shock(2, 10, 3, 1e-3) }, "as far as the lens" },
        { Good with { Flow = new ExpectedFlow.WeakLens(0, 0.05) }, "focal length of the weak lens" },
        { Good with { Flow = new ExpectedFlow.GasCell("unobtainium", 0.05, 5e-3) }, "not known" },
        { Good with { Flow = new ExpectedFlow.GasCell("air", 0.05, 5e-3) }, "deflects nothing" },
        { Good with { Flow = new ExpectedFlow.Deflection(0, 0.01) }, "deflection" },
    };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void Judge_OfTheImpossible_SaysWhatInOneSentence(PlanRequest request, string words)
    {
        ConfigurationException problem = Assert.Throws<ConfigurationException>(() => Planner.Judge(request));

        string sentence = Assert.Single(problem.Problems);
        Assert.Contains(words, sentence, StringComparison.Ordinal);
        Assert.EndsWith(".", sentence, StringComparison.Ordinal);
        Assert.DoesNotContain("  ", sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Sweep_OverAnImpossibleValue_GivesTheReasonThere()
    {
        IReadOnlyList<PlanStep> steps = PlanSweep.Run(Good, PlanQuantity.Split, [0.5, 1.2]);

        Assert.NotNull(steps[0].Result);
        Assert.Null(steps[1].Result);
        Assert.Contains("lens to the flow", steps[1].Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Sweep_OverFNumber_TradesBlurForDiffraction()
    {
        IReadOnlyList<PlanStep> steps = PlanSweep.Run(Good, PlanQuantity.FNumber, [2.8, 5.6, 11, 22]);

        for (int i = 1; i < steps.Count; i++)
        {
            Assert.True(steps[i].Result!.FlowBlurMetres < steps[i - 1].Result!.FlowBlurMetres);
            Assert.True(steps[i].Result!.DiffractionSpotMetres > steps[i - 1].Result!.DiffractionSpotMetres);
        }
    }

    [Fact]
    public void Judge_OfAPoorRig_WarnsWithNumbers()
    {
        PlanResult plan = Planner.Judge(Good with
        {
            Flow = new ExpectedFlow.Plume(12e-3, 290, 5),
            Camera = Good.Camera with { NoiseOfFullScale = 0.05, ExposureSeconds = 2e-3, ReadoutSeconds = 10e-3, VibrationRadians = 1e-3, VibrationHertz = 120 },
            Board = new PlannedBoard { WidthMetres = 0.1, DotMetres = 3e-3, DepthMetres = 0.3 },
        });

        string[] expected = ["noise", "fill the view", "dot's image", "Diffraction", "deep", "Vibration smears", "moves", "periods"];
        Assert.All(expected, words => Assert.Contains(plan.Warnings, warning => warning.Sentence.Contains(words, StringComparison.Ordinal)));
        Assert.All(plan.Warnings, warning => Assert.True(warning.Sentence.Any(char.IsDigit) && warning.Remedy.Length > 0));
    }
}
