using BosFlow.Pipeline;
using BosFlow.Results.Maps;
using BosFlow.Results.Runs;

namespace BosFlow.Results.Report;

/// <summary>Writes the report: one page without scripts or links to elsewhere, pictures inside. The same run gives the same bytes.</summary>
public static class ReportWriter
{
    private const int MostHashes = 40;
    private const int MostListed = 200;

    /// <summary>The page of a run.</summary>
    /// <param name="summary">What the run gave.</param>
    /// <param name="identity">What its results depend on.</param>
    /// <param name="pictures">Its maps.</param>
    /// <returns>HTML.</returns>
    public static string ToHtml(RunSummary summary, RunIdentity identity, IReadOnlyList<RunPicture> pictures)
    {
        ArgumentNullException.ThrowIfNull(summary);
        ArgumentNullException.ThrowIfNull(identity);
        ArgumentNullException.ThrowIfNull(pictures);
        var page = new Html();
        page.Raw("<!DOCTYPE html>").Raw("<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
        string maps = summary.Density is null ? "Density-gradient maps" : "Density maps";
        page.Raw($"<title>{maps}: report of a run</title>").Raw($"<style>\n{ReportStyle.Css}\n</style></head><body>");
        page.Heading(1, $"{maps} from background-oriented schlieren").Paragraph(summary.Footage.Description, "under");
        AddVerdict(page, summary);
        AddWarnings(page, summary);
        AddMaps(page, "Maps of the density gradient", pictures, PictureTopic.Gradient);
        DensitySection.Add(page, summary, pictures);
        AddMaps(page, "Maps of the displacement", pictures, PictureTopic.Displacement);
        AddCurves(page, summary);
        AddLight(page, summary);
        AddList(page, "Frames that could not be measured", summary, f => f.Failure);
        AddList(page, "Frames that were left out", summary, f => f.Rejection);
        page.Heading(2, "Settings").Table(["Setting", "Value"], [.. ReportSettings.Rows(summary), .. ReportBoardRows.Of(summary, identity.Board)]);
        page.Heading(2, "Methods");
        foreach (string paragraph in ReportMethods.Paragraphs(summary, identity.ProgramVersion))
            page.Paragraph(paragraph);
        AddProvenance(page, identity);
        page.Raw("<section class=\"cautions\">").Heading(2, "Cautions").List(ReportCautions.Sentences).Raw("</section>");
        return page.Raw("</body></html>").ToString();
    }

    private static void AddVerdict(Html page, RunSummary summary)
    {
        (string headline, string cssClass, IReadOnlyList<string> sentences) = VerdictText.Of(Verdict.Of(summary));
        if (DensityFinding.Of(summary.Density) is { } finding)
            sentences = [.. sentences, DensityWords.Sentences(finding, summary.Scale?.FlowMetresPerPixel)[0]];
        page.Raw($"<section class=\"verdict {cssClass}\">").Heading(2, headline).List(sentences).Raw("</section>");
    }

    private static void AddWarnings(Html page, RunSummary summary)
    {
        page.Heading(2, "What you should know");
        string[] general = [.. summary.Warnings.Concat(summary.Density?.Warnings ?? []).Concat(summary.Footage.Warnings).Concat(summary.Reference.Warnings).Distinct()];
        var ofFrames = summary.Frames
            .SelectMany(frame => frame.Warnings.Select(text => (text, frame.Index)))
            .GroupBy(pair => pair.text, pair => pair.Index)
            .Select(group => (Text: group.Key, Frames: group.Distinct().Order().ToArray()))
            .ToArray();
        if (general.Length == 0 && ofFrames.Length == 0)
            page.Paragraph("Nothing was found that calls for a warning.");
        if (general.Length > 0)
            page.List(general);
        if (ofFrames.Length > 0)
            page.Heading(3, "Single frames").Table(["Frames", "What"], ofFrames.Select(w => (IReadOnlyList<string>)[Figures.Ranges(w.Frames, 12), w.Text]));
    }

    private static void AddMaps(Html page, string heading, IReadOnlyList<RunPicture> pictures, PictureTopic topic)
    {
        RunPicture[] ofTopic = [.. pictures.Where(p => p.Topic == topic)];
        if (ofTopic.Length == 0)
            return;
        page.Heading(2, heading);
        foreach (RunPicture picture in ofTopic)
            page.Picture(picture.Png, picture.Title, picture.Caption);
    }

    private static void AddCurves(Html page, RunSummary summary)
    {
        page.Heading(2, "Over the run");
        if (!summary.Frames.Any(f => f.IsMeasured))
        {
            page.Paragraph("No frame could be measured, so there is nothing to draw.");
            return;
        }

        var curves = new FrameCurves(summary.Frames);
        string points = curves.FramesAPoint == 1
            ? string.Empty
            : $" {Figures.Count(curves.FramesAPoint)} frames share a point: the line is their median, the band reaches from the lowest to the highest; each frame is in frames.csv.";
        page.Picture(
            ReportPlots.NoiseFloor(curves), "Noise floor of each frame",
            $"Noise floor of each frame in px: RMS of the displacement that remains on the undisturbed region after the motion of the background is taken out. A gap is where no frame was measured.{points}");
        page.Picture(
            ReportPlots.Shake(curves, summary.Reference.Image.Width, summary.Reference.Image.Height), "Shift of the background in each frame",
            $"Shift of the middle of the picture against the reference in px: the shake of camera and background that was taken out. Rotation and scale are in frames.csv.{points}");
    }

    private static void AddLight(Html page, RunSummary summary)
    {
        if (LightVariation.Of(summary.Frames, summary.Reference.Image) is not { } light)
            return;
        page.Heading(2, "Light").Table(["What", "Found", "Meaning"], LightWords.Rows(light));
        if (summary.Frames.Any(frame => double.IsFinite(frame.Light.Gain)))
        {
            page.Picture(
                ReportPlots.Light(new FrameCurves(summary.Frames)), "Level of each frame",
                "Mean grey level of each frame over that of the reference on the same pixels, and the same in the part of the picture that lost most and in the one that gained most.");
        }
    }

    private static void AddList(Html page, string heading, RunSummary summary, Func<FrameRecord, string?> reasonOf)
    {
        FrameRecord[] concerned = [.. summary.Frames.Where(f => reasonOf(f) is not null)];
        page.Heading(2, heading);
        if (concerned.Length == 0)
        {
            page.Paragraph("None.");
            return;
        }

        page.Table(["Frame", "Source", "Reason"], concerned.Take(MostListed).Select(f => (IReadOnlyList<string>)[Figures.Ranges([f.Index], 1), f.Source, reasonOf(f)!]));
        if (concerned.Length > MostListed)
            page.Paragraph($"{concerned.Length - MostListed} more are listed in frames.csv.");
    }

    private static void AddProvenance(Html page, RunIdentity identity)
    {
        page.Heading(2, "Provenance");
        page.Paragraph($"Made by BosFlow {identity.ProgramVersion}. The same case, footage and version give the same results, byte for byte. The whole effective case, the machine and the times are in run.json.");
        page.Table(["What", "SHA-256"], [["Case, inputs and version together", identity.Sha256()], .. identity.Inputs.Take(MostHashes).Select(i => (IReadOnlyList<string>)[$"{i.Role}: {i.Name} ({Figures.Count(i.Bytes)} bytes)", i.Sha256])], "hashes");
        if (identity.Inputs.Count > MostHashes)
            page.Paragraph($"{identity.Inputs.Count - MostHashes} more input files are listed in run.json.");
    }
}
