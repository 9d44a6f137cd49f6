using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>Puts a run's summary together again from the files of its folder.</summary>
internal static class RunSummaryReader
{
    public static RunSummary Read(RunLayout layout, RunDocument document)
    {
        NetCdfContent summary = NetCdfFile.Read(layout.Summary);
        NetCdfContent picture = NetCdfFile.Read(layout.Reference);
        IReadOnlyList<FrameRecord> frames = FramesTable.Read(layout.FramesTable);
        foreach (NetCdfContent part in new[] { summary, picture })
        {
            if (part.Attribute(FrameFile.IdentityName) as string != document.IdentitySha256)
                throw new InputDataException($"The files in {layout.Root} are of different runs; finish this one with the command run.");
        }

        GrayImage image = ReferenceFile.Image(picture);
        return new RunSummary
        {
            Case = document.Identity.Case with { KnifeEdgeDegrees = document.KnifeEdgeDegrees },
            Footage = new FootageInfo
            {
                Width = image.Width,
                Height = image.Height,
                TimesSeconds = [.. frames.Select(f => f.TimeSeconds)],
                Files = [.. document.Identity.Inputs.Where(i => i.Role == "footage").Select(i => i.Name)],
                Description = document.Identity.FootageDescription,
                Warnings = document.FootageWarnings ?? [],
            },
            Reference = new Reference(
                image, document.ReferenceFrames ?? 1, document.Reference ?? string.Empty,
                [.. document.Identity.Inputs.Where(i => i.Role == "reference").Select(i => i.Name)], document.ReferenceWarnings ?? [])
            {
                Drift = document.Drift ?? [],
            },
            Statistics = SummaryFile.Statistics(summary),
            Scale = document.Identity.Scale,
            BoardScale = document.BoardScale,
            Sampling = document.Sampling,
            DerivedFields = SummaryFile.DerivedFields(summary),
            Density = DensityFile.Read(summary, document.Density, layout.Root),
            Frames = frames,
            Warnings = document.Warnings ?? [],
        };
    }
}
