using BosFlow.Camera;

namespace BosFlow.Inspection;

/// <summary>What is known of a photo of a board besides the photo.</summary>
public sealed record BoardCheckSettings
{
    /// <summary>How grey levels follow the light.</summary>
    public PictureTones Tones { get; init; } = PictureTones.Srgb;

    /// <summary>What a steel rule reads along the whole ruler that runs to the right, m; null = not measured.</summary>
    public double? RulerXMetres { get; init; }

    /// <summary>What a steel rule reads along the whole ruler that runs down, m; null = not measured.</summary>
    public double? RulerYMetres { get; init; }

    /// <summary>Resolution at which the board was scanned, pixels in an inch; null = the picture is a photo.</summary>
    public double? ScanDpi { get; init; }
}
