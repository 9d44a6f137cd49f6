using BosFlow.Planning;
using BosFlow.Results.Maps;
using BosFlow.Results.Report;

namespace BosFlow.Results.Plans;

/// <summary>The page of a plan: sheet, warnings, pictures, cautions; no scripts or links to elsewhere. The same plan gives the same bytes.</summary>
internal static class PlanPage
{
    /// <summary>The page.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="studies">Sweep or search, each with its table and picture.</param>
    /// <param name="programVersion">Version of the program.</param>
    public static string ToHtml(PlanResult plan, IReadOnlyList<PlanStudy> studies, string programVersion)
    {
        var page = new Html();
        page.Raw("<!DOCTYPE html>").Raw("<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
        page.Raw("<title>Plan of a rig</title>").Raw($"<style>\n{ReportStyle.Css}\n</style></head><body>");
        page.Heading(1, "Plan of a rig for background-oriented schlieren").Paragraph($"Reckoned by BosFlow {programVersion}; nothing was measured.", "under");
        Verdict(page, plan);
        Warnings(page, plan);
        page.Picture(RigSketch.Render(plan), "The rig from the side", "Lens, view, flow and board from the side, to scale. Where the picture is green a point is sharp to 1 px.");
        foreach (PlanGroup group in PlanSheet.Of(plan))
            Group(page, group);
        foreach (PlanStudy study in studies)
        {
            page.Heading(2, study.Title).Paragraph(study.Note).Picture(study.Png, study.Title, study.Caption);
            page.Table(study.Columns, study.Rows);
        }

        page.Heading(2, "Print the board").Paragraph(BoardCommand.Of(plan));
        if (BoardCommand.OneSheet(plan) is { Length: > 0 } sentence)
            page.Paragraph(sentence);
        page.Raw("<section class=\"cautions\">").Heading(2, "Cautions").List(PlanCautions.Sentences).Raw("</section>");
        return page.Raw("</body></html>").ToString();
    }

    private static void Verdict(Html page, PlanResult plan)
    {
        (string headline, string cssClass, string sentence) = plan.Flow switch
        {
            null => ("No flow is expected", "fair", "The sheet tells what could be seen; with [expected] it tells whether a flow will be."),
            { OneFrame: Detectability.Good } flow => ("The flow will be measured", "good", Ratios(flow)),
            { OneFrame: Detectability.Marginal } flow => ("The flow will be seen, hardly measured in one frame", "fair", Ratios(flow)),
            { Mean: Detectability.Hopeless } flow => ("The flow will not be seen", "bad", Ratios(flow)),
            { } flow => ("The flow will be seen in the mean only", "fair", Ratios(flow)),
        };
        page.Raw($"<section class=\"verdict {cssClass}\">").Heading(2, headline).List([sentence]).Raw("</section>");
    }

    private static string Ratios(FlowPrediction flow) =>
        $"Displacement {Figures.Text(flow.MeasuredPixels)} px, {Figures.Text(flow.SignalToNoise)} times the noise of one frame and {Figures.Text(flow.MeanSignalToNoise)} times that of the mean. It is seen from 3 on and quantified from 10 on.";

    private static void Warnings(Html page, PlanResult plan)
    {
        page.Heading(2, "What should be changed, most important first");
        if (plan.Warnings.Count == 0)
            page.Paragraph("Nothing was found that calls for a change.");
        else
            page.Numbered(plan.Warnings.Select(warning => $"{warning.Sentence} {warning.Remedy}"));
    }

    private static void Group(Html page, PlanGroup group)
    {
        page.Heading(2, group.Title);
        if (group.Lines.Count > 0)
            page.Table(["Quantity", "Value", "Remark"], group.Lines.Select(line => (IReadOnlyList<string>)[line.Name, line.Value.Length == 0 ? "\u2013" : $"{line.Value} {UnitText.Readable(line.Unit)}".Trim(), line.Remark]));
        if (group.Note.Length > 0)
            page.Paragraph(group.Note);
    }
}
