using BosFlow.Camera;
using BosFlow.Media.Calibration;

namespace BosFlow.Cli.Calibrating;

/// <summary>What a calibration was asked for, checked.</summary>
internal sealed record CalibrationRequest
{
    /// <summary>What was filmed.</summary>
    public required CalibrationTarget Target { get; init; }

    /// <summary>Pictures, paths or patterns; empty where a video is given.</summary>
    public required IReadOnlyList<string> Pictures { get; init; }

    /// <summary>Video; null where pictures are given.</summary>
    public string? Video { get; init; }

    /// <summary>Most frames that are looked at.</summary>
    public required int MostFrames { get; init; }

    /// <summary>Family of the lens.</summary>
    public required LensKind Kind { get; init; }

    /// <summary>Pixel pitch, m; null = not given.</summary>
    public double? PixelPitchMetres { get; init; }

    /// <summary>Absolute path of the lens file.</summary>
    public required string Output { get; init; }

    /// <summary>Absolute path of the coverage picture.</summary>
    public string Coverage => Path.ChangeExtension(Output, ".png");
}
