using BosFlow.Results.Plans;
using BosFlow.Results.Plots;
using BosFlow.Results.Report;
using BosFlow.Triage;

namespace BosFlow.Results.Triage;

/// <summary>The page of a judgement: verdict, what to change, figures, dots over the picture, course over time; no scripts or links to elsewhere.</summary>
internal static class TriagePage
{
    public static string ToHtml(TriageResult result, string programVersion)
    {
        var page = new Html();
        page.Raw("<!DOCTYPE html>").Raw("<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
        page.Raw("<title>Triage of a take</title>").Raw($"<style>\n{ReportStyle.Css}\n</style></head><body>");
        page.Heading(1, "Triage of a take").Paragraph($"{Path.GetFileName(result.Info.Files.FirstOrDefault("footage"))}: {result.Info.Description}, {result.Info.Width} x {result.Info.Height} px. Judged by BosFlow {programVersion}.", "under");
        string look = !result.IsUsable ? "bad" : result.Findings.Count == 0 ? "good" : "fair";
        page.Raw($"<section class=\"verdict {look}\">").Heading(2, TriageSheet.Verdict(result)).List([$"Usable: {TriageSheet.Ranges(result)}.", .. result.Info.Warnings]).Raw("</section>");
        page.Heading(2, "What to change before the next take, largest effect first");
        if (result.Findings.Count == 0)
            page.Paragraph("Nothing was found that calls for a change.");
        else
            page.Numbered(result.Findings.Select(finding => $"{finding.Sentence} {finding.Remedy} (Costs about {Figures.Text(finding.Effect)} times the error.)"));
        page.Heading(2, "Figures").Table(["Quantity", "Value", "What it means"], TriageSheet.Rows(result).Select(row => (IReadOnlyList<string>)[row.Name, row.Value, row.Remark]));
        Dots(page, result);
        Course(page, result);
        page.Raw("<section class=\"cautions\">").Heading(2, "Cautions").List(PlanCautions.Sentences).Raw("</section>");
        return page.Raw("</body></html>").ToString();
    }

    // Where over the picture it is sharp: medians over the frames of each tile.
    private static void Dots(Html page, TriageResult result)
    {
        FrameReading[] seen = [.. result.Frames.Where(frame => frame.Failure is null && frame.Tiles.Count > 0)];
        if (seen.Length == 0)
            return;
        page.Heading(2, "Dot image over the picture, px");
        double[] columns = [.. seen[0].Tiles.Select(tile => tile.X).Distinct().Order()];
        double[] rows = [.. seen[0].Tiles.Select(tile => tile.Y).Distinct().Order()];
        page.Table(["y \\ x, px", .. columns.Select(x => Figures.Text(x))], rows.Select(y => (IReadOnlyList<string>)
        [
            Figures.Text(y), .. columns.Select(x => Middle(seen.Select(frame => frame.Tiles.FirstOrDefault(tile => tile.X == x && tile.Y == y)?.DotPixels ?? double.NaN))),
        ]));
        page.Paragraph("The same everywhere: sharp and square to the board. Larger towards one side: the board is tilted or the focus lies before or behind it. A dash: no pattern is seen there.");
    }

    private static string Middle(IEnumerable<double> values)
    {
        double[] known = [.. values.Where(double.IsFinite).Order()];
        return known.Length == 0 ? "\u2013" : Figures.Text(known[known.Length / 2]);
    }

    private static void Course(Html page, TriageResult result)
    {
        double[] at = [.. result.Frames.Select(frame => double.IsFinite(frame.TimeSeconds) ? frame.TimeSeconds : frame.Index)];
        string label = result.Frames.Any(frame => double.IsFinite(frame.TimeSeconds)) ? "time, s" : "frame";
        page.Heading(2, "Over time");
        var light = new PlotCurve("", at, [.. result.Frames.Select(frame => frame.Level * 100)]);
        page.Picture(CurvePlot.Render(new PlotFrame(label, "mean level, % of white") { FromZero = true }, [light]), "Light over time", "Mean light level of the sampled frames.");
        var dots = new PlotCurve("", at, [.. result.Frames.Select(frame => Diameter(frame))]);
        page.Picture(CurvePlot.Render(new PlotFrame(label, "dot image, px") { FromZero = true }, [dots]), "Sharpness over time", "Diameter of a dot's image, median over the picture.");
    }

    private static double Diameter(FrameReading frame)
    {
        double[] known = [.. frame.Tiles.Where(tile => tile.HasPattern).Select(tile => tile.DotPixels).Order()];
        return known.Length == 0 ? double.NaN : known[known.Length / 2];
    }
}
