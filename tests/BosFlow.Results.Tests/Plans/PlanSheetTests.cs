using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Results.Tests.Plans;

public sealed class PlanSheetTests
{
    // Pure numbers by their nature.
    private static readonly string[] Unitless = ["Ratio to the noise, one frame", "Ratio to the noise, mean", "Dots in a window", "Aperture"];

    [Fact]
    public void Of_APlan_GivesEveryValueAUnit()
    {
        PlanLine[] lines = [.. PlanSheet.Of(SamplePlan.Result).SelectMany(group => group.Lines)];

        Assert.True(lines.Length > 30);
        Assert.All(lines.Where(line => line.Value.Length > 0), line => Assert.Equal(Unitless.Contains(line.Name), line.Unit.Length == 0));
        Assert.All(lines.Where(line => line.Value.Length == 0), line => Assert.NotEmpty(line.Remark));
    }

    [Fact]
    public void Of_APlan_ShowsTheScaleOfTheThinLens()
    {
        // By hand: image distance 1 / (1 / 50 - 1 / 1600) = 51.6129 mm; 5.9 um * 1600 / 51.6129 = 0.1829 mm/px, magnification 1 : 31.
        PlanLine line = Line(SamplePlan.Result, "Scale on the board");

        Assert.Equal("0.183 mm/px", line.Quantity);
        Assert.Equal("magnification 1 : 31", line.Remark);
    }

    [Fact]
    public void Of_NoExposure_SaysWhatToGive()
    {
        Assert.Equal("exposure_ms, vibration_mrad and vibration_hz are not given: no smear", Line(SamplePlan.Result, "Smear by vibration").Remark);
        Assert.Equal("exposure_ms and speed_m_per_s are not given: no motion", Line(SamplePlan.Result, "Flow moves during the exposure").Remark);
        Assert.Equal("speed_m_per_s is not given: no motion", Line(SamplePlan.Result, "Exposure that freezes eddies").Remark);
        Assert.Equal("vibration_mrad and vibration_hz are not given: no limit", Line(SamplePlan.Result, "Exposure at most").Remark);
        Assert.Equal("-", Line(SamplePlan.Result, "Light with these").Quantity);
    }

    [Fact]
    public void Of_NoFlow_SaysHowToGiveOne()
    {
        PlanGroup group = PlanSheet.Of(SamplePlan.Result with { Flow = null }).Single(group => group.Title == "Expected flow");

        Assert.Empty(group.Lines);
        Assert.Contains("--expected jet", group.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_SharpToInfinity_SaysSo()
    {
        Assert.Equal("1500 to infinity mm", Line(SamplePlan.Result with { DepthOfField = (1.5, double.PositiveInfinity) }, "Depth of field").Quantity);
    }

    [Theory]
    [InlineData(Detectability.Good, "good: can be quantified (10 and above)")]
    [InlineData(Detectability.Marginal, "marginal: seen, hardly to be quantified (3 to 10)")]
    [InlineData(Detectability.Hopeless, "hopeless: not seen (below 3)")]
    public void Of_EachVerdict_IsInWords(Detectability verdict, string words)
    {
        PlanResult plan = SamplePlan.Result with { Flow = SamplePlan.Result.Flow! with { OneFrame = verdict } };

        Assert.Equal(words, Line(plan, "Ratio to the noise, one frame").Remark);
    }

    [Fact]
    public void BoardCommand_ViewAndDot_AreWholeCentimetresAndThreeDigits()
    {
        PlanResult plan = SamplePlan.Result with { ViewAtBoard = (0.5487, 0.3658), DotMetres = 0.00043612 };

        Assert.Equal("bosflow print --board-mm 550x370 --dot-mm 0.436 --paper A4 --output board.pdf", BoardCommand.Of(plan));
        Assert.Equal("One sheet of A2 holds it: --paper A2 --landscape in place of A4.", BoardCommand.OneSheet(plan));
        Assert.Empty(BoardCommand.OneSheet(plan with { ViewAtBoard = (3, 2) }));
    }

    private static PlanLine Line(PlanResult plan, string name) => PlanSheet.Of(plan).SelectMany(group => group.Lines).First(line => line.Name == name);
}
