using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>A print that passed every check.</summary>
internal sealed record PrintJob
{
    public required BoardSettings Settings { get; init; }

    public required SheetPlan Plan { get; init; }

    public required DateOnly Date { get; init; }

    public required double Dpi { get; init; }

    public required IReadOnlyList<PrintFile> Files { get; init; }

    /// <summary>Absolute path of the description.</summary>
    public string DescriptionPath => Files.First(file => file.Kind == PrintFileKind.Description).Path;

    /// <summary>What the user should know before printing, a sentence each.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Scale on the board from which dots in px became mm, m/px; null where they were given in mm.</summary>
    public double? MetresPerPixel { get; init; }
}
