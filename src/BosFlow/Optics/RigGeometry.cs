namespace BosFlow.Optics;

/// <summary>Distances and camera of the rig.</summary>
public sealed record RigGeometry
{
    /// <summary>Z_A: entrance pupil of the lens to the middle of the flow, m, greater than 0.</summary>
    public required double LensToFlowMetres { get; init; }

    /// <summary>Z_D: middle of the flow to the background, m, greater than 0.</summary>
    public required double FlowToBackgroundMetres { get; init; }

    /// <summary>Scale measured in the background plane, m/px; null where it follows from focal length and pixel pitch.</summary>
    public double? BackgroundMetresPerPixel { get; init; }

    /// <summary>Focal length, m; needed where no scale is given.</summary>
    public double? FocalLengthMetres { get; init; }

    /// <summary>Pixel pitch, m; needed where no scale is given.</summary>
    public double? PixelPitchMetres { get; init; }

    /// <summary>f-number, 1; only for the blur stated in the report.</summary>
    public double? FNumber { get; init; }

    /// <summary>Length of the flow along the line of sight, m; null where only path integrals are wanted.</summary>
    public double? PathLengthMetres { get; init; }

    /// <summary>Standard uncertainty of <see cref="LensToFlowMetres"/>, m; null = not stated.</summary>
    public double? LensToFlowSigmaMetres { get; init; }

    /// <summary>Standard uncertainty of <see cref="FlowToBackgroundMetres"/>, m; null = not stated.</summary>
    public double? FlowToBackgroundSigmaMetres { get; init; }

    /// <summary>Relative standard uncertainty of <see cref="BackgroundMetresPerPixel"/>, 1; null = not stated.</summary>
    public double? BackgroundScaleRelativeSigma { get; init; }

    /// <summary>Standard uncertainty of <see cref="FocalLengthMetres"/>, m; null = not stated.</summary>
    public double? FocalLengthSigmaMetres { get; init; }

    /// <summary>Standard uncertainty of <see cref="PathLengthMetres"/>, m; null = not stated.</summary>
    public double? PathLengthSigmaMetres { get; init; }
}
