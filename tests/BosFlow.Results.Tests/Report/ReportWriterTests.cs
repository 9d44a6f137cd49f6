using System.Net;
using System.Text.RegularExpressions;
using BosFlow.Pipeline;
using BosFlow.Results.Maps;
using BosFlow.Results.Report;

namespace BosFlow.Results.Tests.Report;

public sealed partial class ReportWriterTests
{
    private static readonly RunPicture[] Pictures = [new("a.png", "A map", "Its caption, in kg m⁻³.", [1, 2, 3])];

    [Fact]
    public void ToHtml_EveryWarningAndFailure_IsThereInPlainWordsAndEscaped()
    {
        RunSummary summary = SampleRun.Summary();

        string page = ReportWriter.ToHtml(summary, SampleRun.Identity(), Pictures);

        string[] sentences = [.. summary.Warnings, .. summary.Frames.SelectMany(f => f.Warnings), .. summary.Frames.Select(f => f.Failure).OfType<string>()];
        Assert.All(sentences, sentence => Assert.Contains(WebUtility.HtmlEncode(sentence), page, StringComparison.Ordinal));
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<marks>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void ToHtml_Light_IsToldWithItsSize()
    {
        string page = ReportWriter.ToHtml(SampleRun.Summary(), SampleRun.Identity(), Pictures);

        Assert.Contains("<h2>Light</h2>", page, StringComparison.Ordinal);
        Assert.Contains("90.0 % to 94.0 %", page, StringComparison.Ordinal);
        Assert.Contains("85.0 % in frame 0", page, StringComparison.Ordinal);
        Assert.Contains("Level of each frame", page, StringComparison.Ordinal);
        Assert.Contains("0.0 % in the mean", page, StringComparison.Ordinal);
    }

    [Fact]
    public void ToHtml_BiasTakenOff_IsTold()
    {
        string page = WebUtility.HtmlDecode(ReportWriter.ToHtml(SampleRun.Summary(), SampleRun.Identity(), Pictures));

        Assert.Contains("0.0029 px in u and 0.0031 px in v, told from the spectrum of the reference", page, StringComparison.Ordinal);
        Assert.Contains("0.0006 px (amplitude) stay and are part of sigma", page, StringComparison.Ordinal);
    }

    [Fact]
    public void ToHtml_SigmasMultiplied_IsTold()
    {
        RunSummary summary = SampleRun.Summary();
        string page = WebUtility.HtmlDecode(ReportWriter.ToHtml(summary, SampleRun.Identity(), Pictures));
        string plain = WebUtility.HtmlDecode(ReportWriter.ToHtml(summary with { Frames = [.. summary.Frames.Select(frame => frame with { SigmaFactorU = 1, SigmaFactorV = 1 })] }, SampleRun.Identity(), Pictures));

        Assert.Contains("exceeded 1 by more than chance (the ratio of Birge, 1932), here by up to 1.3", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Birge", plain, StringComparison.Ordinal);
    }

    [Fact]
    public void ToHtml_Page_NeedsNothingFromElsewhere()
    {
        string page = ReportWriter.ToHtml(SampleRun.Summary(), SampleRun.Identity(), Pictures);

        Assert.All(Reference().Matches(page), match => Assert.StartsWith("data:image/png;base64,", match.Groups[1].Value, StringComparison.Ordinal));
        Assert.Equal(4, Reference().Count(page));
        Assert.DoesNotContain("http", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("url(", page, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void ToHtml_Twice_GivesTheSamePage() =>
        Assert.Equal(ReportWriter.ToHtml(SampleRun.Summary(), SampleRun.Identity(), Pictures), ReportWriter.ToHtml(SampleRun.Summary(), SampleRun.Identity(), Pictures));

    [Fact]
    public void ToHtml_Page_IsWellFormed()
    {
        // XML is stricter than HTML: parsing proves that every mark is closed and every text escaped.
        string page = ReportWriter.ToHtml(SampleRun.Summary(), SampleRun.Identity(), Pictures).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal);
        string closed = VoidMark().Replace(page, "<$1$2/>");

        System.Xml.Linq.XDocument parsed = System.Xml.Linq.XDocument.Parse(closed);

        Assert.Equal(11, parsed.Descendants("h2").Count());
    }

    [Fact]
    public void ToHtml_NoFrameMeasured_SaysSoFirst()
    {
        RunSummary summary = SampleRun.Summary(withScale: false);
        FrameRecord[] failed = [.. summary.Frames.Select(f => f with { Failure = "The file is damaged.", NoiseFloorU = double.NaN, NoiseFloorV = double.NaN })];

        string page = ReportWriter.ToHtml(summary with { Frames = failed }, SampleRun.Identity(), Pictures);

        Assert.Contains("<h2>No frame could be measured</h2>", page, StringComparison.Ordinal);
        Assert.Contains("0 of 12 frames were measured; 12 could not be", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Verdict_KnownRun_GivesMedianAndRatio()
    {
        Verdict verdict = Verdict.Of(SampleRun.Summary());

        // Frames 0 to 11 without 5: u of 0.0081 + 0.0005 (i mod 5) has the median 0.0091 (i mod 5 = 2 is the 6th of 11).
        Assert.Equal(11, verdict.FramesMeasured);
        Assert.Equal(0.0091, verdict.NoiseFloorU, 1e-12);
        Assert.Equal(0.0079, verdict.NoiseFloorV, 1e-12);
        Assert.Equal(1.7115, verdict.DensityGradientPathPerPixel!.Value, 1e-12);
        Assert.Equal(verdict.PeakPixels / Math.Sqrt((0.0091 * 0.0091) + (0.0079 * 0.0079)), verdict.SignalToNoise, 1e-9);
        Assert.InRange(verdict.PeakPixels, 2.3, 2.5);
    }

    [Theory]
    [InlineData(0.00796, "0.00796")]
    [InlineData(1234.4, "1234")]
    [InlineData(-1.7115, "\u22121.71")]
    [InlineData(2.265e-7, "2.27 × 10⁻⁷")]
    [InlineData(0, "0")]
    [InlineData(double.NaN, "not known")]
    public void Figures_Number_HasThreeDigits(double value, string expected) => Assert.Equal(expected, Figures.Text(value));

    [Fact]
    public void Figures_FrameNumbers_AreJoinedToRanges() =>
        Assert.Equal("0, 3 to 6, 8, 9, 40", Figures.Ranges([0, 3, 4, 5, 6, 8, 9, 40], 9));

    [GeneratedRegex("(?:src|href|action|data)\\s*=\\s*\"([^\"]*)\"", RegexOptions.IgnoreCase)]
    private static partial Regex Reference();

    [GeneratedRegex("<(meta|img)([^>]*)>")]
    private static partial Regex VoidMark();
}
