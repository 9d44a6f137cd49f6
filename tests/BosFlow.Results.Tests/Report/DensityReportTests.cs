using System.Net;
using BosFlow.Density;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Results.Maps;
using BosFlow.Results.Report;

namespace BosFlow.Results.Tests.Report;

public sealed class DensityReportTests
{
    private static readonly RunPicture[] Pictures =
    [
        new("g.png", "A gradient", "Its caption.", [1]) { Topic = PictureTopic.Gradient },
        new("u.png", "A displacement", "Its caption.", [2]),
        new("d.png", "A density", "Its caption.", [3]) { Topic = PictureTopic.Density },
    ];

    [Fact]
    public void Page_OfADensity_HasItsSectionRightAfterTheGradients()
    {
        string page = Page(SampleDensity.Axisymmetric());

        Assert.Equal(
            ["A clear signal", "What you should know", "Maps of the density gradient", "Density and temperature", "Maps of the displacement", "Over the run", "Light", "Frames that could not be measured", "Frames that were left out", "Settings", "Methods", "Provenance", "Cautions"],
            System.Text.RegularExpressions.Regex.Matches(page, "<h2>([^<]*)</h2>").Select(m => WebUtility.HtmlDecode(m.Groups[1].Value)));
    }

    [Fact]
    public void Page_OfADensity_HasBudgetChecksMethodsWarningsAndCautions()
    {
        DensityResult density = SampleDensity.Axisymmetric();
        string page = Page(density);

        string[] texts =
        [
            .. density.Warnings, .. density.Methods, .. density.Checks.SelectMany(c => new[] { c.Name, c.Expected }), .. density.Budget!.Lines.SelectMany(l => new[] { l.Source, l.Input }),
            .. ReportCautions.Temperature, "94.1\u00a0%", "not stated", ">NO<", "0.489 ± 0.022 kg m⁻³", "722 ± 32 K (448 °C)", "x = 335.5 px, y = 463.5 px", "found from the symmetry of the displacement",
        ];
        Assert.All(texts, text => Assert.Contains(text.StartsWith('>') ? text : WebUtility.HtmlEncode(text), page, StringComparison.Ordinal));
    }

    [Fact]
    public void Page_WithoutTemperature_SpeaksOfNone()
    {
        string page = Page(SampleDensity.WithoutTemperature(SampleDensity.Axisymmetric()));

        Assert.Contains("<h2>Density</h2>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Before you use a temperature", page, StringComparison.Ordinal);
        Assert.DoesNotContain(WebUtility.HtmlEncode("Temperature\u00a0(K)"), page, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_NotAnchored_SaysThatOnlyDifferencesAreKnown()
    {
        string page = Page(SampleDensity.NotAnchored(SampleDensity.Planar()));

        Assert.Contains("Only differences are known, no densities", page, StringComparison.Ordinal);
        Assert.Contains("ambient_edges", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Uncertainty budget", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Page_NothingDetermined_SaysSoAndWhy(bool refused)
    {
        const string reason = "No axis of symmetry was found in the displacement: no density can be given.";
        string page = Page(refused ? SampleDensity.Refused(reason) : SampleDensity.Nothing(SampleDensity.Axisymmetric()) with { Warnings = [reason] });

        Assert.Contains("No density could be determined", page, StringComparison.Ordinal);
        Assert.Contains(reason, page, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_PathIntegrated_GivesTheIntegralWithItsUnit()
    {
        string page = Page(SampleDensity.PathIntegrated());

        Assert.Contains("the density difference, integrated along the line of sight, is \u22120.0399 ± 0.0016 kg m⁻² (one sigma)", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
    }

    [Fact]
    public void Page_OfADensity_IsWellFormed()
    {
        string page = Page(SampleDensity.Axisymmetric()).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal);

        Assert.NotNull(System.Xml.Linq.XDocument.Parse(System.Text.RegularExpressions.Regex.Replace(page, "<(meta|img)([^>]*)>", "<$1$2/>")));
    }

    [Fact]
    public void UncertaintyScope_EachCase_SaysWhatIsInAndWhatIsNot()
    {
        string withBudget = Scope(SampleDensity.Summary(SampleDensity.Axisymmetric()));
        string pathOnly = Scope(SampleDensity.Summary(SampleDensity.PathIntegrated()));

        Assert.Contains("include: measured displacement; distance from flow to background; Gladstone-Dale coefficient; density of the surroundings.", withBudget, StringComparison.Ordinal);
        Assert.Contains("Not included, because their uncertainty is not stated: scale in the background plane; pressure in the flow.", withBudget, StringComparison.Ordinal);
        Assert.Contains("departures of the flow from roundness", withBudget, StringComparison.Ordinal);
        Assert.Contains("whose uncertainty the case states", pathOnly, StringComparison.Ordinal);
        Assert.StartsWith("Not included in the stated uncertainties: errors of the distances", Scope(SampleRun.Summary()), StringComparison.Ordinal);
        Assert.StartsWith("Not included in the stated uncertainties: blur", Scope(SampleRun.Summary(withScale: false)), StringComparison.Ordinal);
    }

    [Fact]
    public void Settings_OfRigGasAndFlow_AreInWordsWithTheirUncertainty()
    {
        RunSummary summary = SampleDensity.Summary(SampleDensity.Planar());
        ExperimentCase c = summary.Case with
        {
            Rig = summary.Case.Rig! with { FlowToBackgroundSigmaMetres = 0.005, PathLengthMetres = 0.08, PathLengthSigmaMetres = 0.001 },
            Gas = new GasSettings { Name = "air", AmbientPressureSigmaPascal = 50, AmbientTemperatureSigmaKelvin = 0.5, RelativeHumidity = 0.4 },
            Flow = summary.Case.Flow with { Shape = FlowShape.Axisymmetric, Axis = new AxisLine(320, 470, 330, 10) },
        };

        Dictionary<string, string> rows = ReportSettings.Rows(summary with { Case = c }).ToDictionary(r => r[0], r => r[1]);

        Assert.Equal("800 mm ± 5 mm", rows["Flow to background"]);
        Assert.Equal("1200 mm", rows["Lens (entrance pupil) to flow"]);
        Assert.Equal("80 mm ± 1 mm", rows["Path length through the flow"]);
        Assert.Equal("101325 Pa ± 50 Pa", rows["Pressure of the surroundings"]);
        Assert.Equal("15 °C ± 0.5 K", rows["Temperature of the surroundings"]);
        Assert.Equal("air of 40 % relative humidity", rows["Gas"]);
        Assert.Equal("550 nm ± 30 nm", rows["Effective wavelength"]);
        Assert.Equal("through (320, 470) and (330, 10) px, as given", rows["Axis"]);
        Assert.Equal("left and right edge of the picture", rows["Where the gas is that of the surroundings"]);
        Assert.Equal("that of the surroundings", rows["Pressure in the flow"]);
    }

    [Fact]
    public void Finding_WithBudget_IsItsPlaceAndTheExtremesOfPlainPlaces()
    {
        DensityResult density = SampleDensity.Planar();
        int wild = 100;
        density.Fields[0].Values[wild] = -3;
        density.Flags[wild] = DensityFlags.NotPositive;

        DensityFinding finding = DensityFinding.Of(density)!;

        Assert.Equal(density.Budget!.DensityKgM3, finding.Main!.Value);
        Assert.Equal(density.Budget.TemperatureKelvin, finding.TemperatureKelvin);
        Assert.InRange(finding.Lowest!.Value, 0.7, 0.75);
        Assert.InRange(finding.Highest!.Value, 1.22, 1.24);
        Assert.Equal("0.727 ± 0.022 kg m-3 (1 sigma) where it differs most, at x = 287.5 px, y = 223.5 px; temperature 486 ± 14 K", finding.Line);
    }

    [Fact]
    public void Finding_OfNothing_SaysNotDetermined()
    {
        Assert.Null(DensityFinding.Of(null));
        Assert.Contains("not determined", DensityFinding.Of(SampleDensity.Refused("why"))!.Line, StringComparison.Ordinal);
        Assert.Contains("not determined", DensityFinding.Of(SampleDensity.Nothing(SampleDensity.Planar()))!.Line, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.4123, 0.0214, "kg m⁻³", "0.412 ± 0.021 kg m⁻³")]
    [InlineData(1862.4, 123.4, "K", "1862 ± 123 K")]
    [InlineData(-0.0123, 0.0004, "kg m⁻²", "\u22120.01230 ± 0.00040 kg m⁻²")]
    [InlineData(-1.23e-5, 4e-7, "kg m⁻²", "(\u22121.230 ± 0.040) × 10⁻⁵ kg m⁻²")]
    [InlineData(0.4123, double.NaN, "kg m⁻³", "0.412 kg m⁻³ (uncertainty not known)")]
    [InlineData(double.NaN, 0.1, "K", "not known")]
    public void Figures_WithSigma_StopAtTheSecondDigitOfTheUncertainty(double value, double sigma, string unit, string expected) =>
        Assert.Equal(expected, Figures.WithSigma(value, sigma, unit));

    [Fact]
    public void BudgetShares_OfALine_IsItsPartOfTheVariance()
    {
        UncertaintyBudget budget = SampleDensity.Planar().Budget!;

        Assert.Equal(1, budget.Lines.Where(l => l.IsStated).Sum(l => BudgetShares.Of(budget, l)), 1e-12);
        Assert.Equal("94.1 %", BudgetShares.Text(budget, budget.Lines[0]));
        Assert.Equal("\u2013", BudgetShares.Text(budget, budget.Lines[^1]));
        UncertaintyBudget none = budget with { Lines = [new("a", "b", 0, double.NaN, true)] };
        Assert.Equal("share not known", BudgetShares.Text(none, none.Lines[0]));
    }

    // Without the pictures' bytes, whose letters may spell anything.
    private static string Page(DensityResult density) => System.Text.RegularExpressions.Regex.Replace(
        ReportWriter.ToHtml(SampleDensity.Summary(density), SampleRun.Identity(), Pictures), "base64,[^\"]*", "base64,");

    private static string Scope(RunSummary summary) => string.Join(' ', UncertaintyScope.Paragraphs(summary));
}
