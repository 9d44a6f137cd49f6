using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>What the command line of print asks for, as typed; nothing of it is checked yet.</summary>
internal sealed record PrintRequest
{
    public required IReadOnlyList<string> Outputs { get; init; }

    public required string? Contours { get; init; }

    public required string Paper { get; init; }

    public required bool Landscape { get; init; }

    public required double MarginMillimetres { get; init; }

    public required string? Board { get; init; }

    public required double OverlapMillimetres { get; init; }

    public required string? DotMillimetres { get; init; }

    public required string? DotPixels { get; init; }

    public required string? Case { get; init; }

    public required double Coverage { get; init; }

    public required double? GapMillimetres { get; init; }

    public required BoardTones Tones { get; init; }

    public required ulong Seed { get; init; }

    public required bool WithFiducials { get; init; }

    public required double? FiducialMillimetres { get; init; }

    public required double InkGainMillimetres { get; init; }

    public required double PrinterDpi { get; init; }

    public required double? CutterMillimetres { get; init; }

    public required double? Dpi { get; init; }

    public required string? Date { get; init; }

    public required bool Force { get; init; }
}
