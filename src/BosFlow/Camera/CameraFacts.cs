namespace BosFlow.Camera;

/// <summary>What a camera does to a picture besides its lens: size, exposure, readout, noise, focus, vibration.</summary>
public sealed record CameraFacts
{
    /// <summary>Width of the pictures, px.</summary>
    public required int PictureWidth { get; init; }

    /// <summary>Height of the pictures, px.</summary>
    public required int PictureHeight { get; init; }

    /// <summary>Exposure time, s; null = not known.</summary>
    public double? ExposureSeconds { get; init; }

    /// <summary>Time in which all rows are read, s, 0 for a global shutter; null = not known.</summary>
    public double? ReadoutSeconds { get; init; }

    /// <summary>Standard deviation of the grey levels' noise in one pixel of one frame, part of full scale.</summary>
    public double NoiseOfFullScale { get; init; } = 0.01;

    /// <summary>Distance on which the lens is focused, m from its entrance pupil; null = the background.</summary>
    public double? FocusMetres { get; init; }

    /// <summary>Standard deviation of the angle by which vibration turns the camera, rad; null = none assumed.</summary>
    public double? VibrationRadians { get; init; }

    /// <summary>Frequency of that vibration, Hz; null = not known.</summary>
    public double? VibrationHertz { get; init; }
}
