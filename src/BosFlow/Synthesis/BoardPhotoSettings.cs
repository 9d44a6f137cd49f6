using BosFlow.Camera;

namespace BosFlow.Synthesis;

/// <summary>How a printed board is photographed by <see cref="BoardPhotographer"/>.</summary>
public sealed record BoardPhotoSettings
{
    /// <summary>Camera, its place, and the printer's scale in x and y.</summary>
    public required PlaneCamera Camera { get; init; }

    /// <summary>Width of the photo, px.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the photo, px.</summary>
    public required int Height { get; init; }

    /// <summary>By how much the ink makes every black shape wider than drawn (diameter), m of the board before the printer's scale.</summary>
    public double InkGainMetres { get; init; }

    /// <summary>Standard deviation of the lens's blur, px; the pixels average over their own area besides.</summary>
    public double BlurPixels { get; init; } = 0.7;

    /// <summary>Standard deviation of the noise, part of full scale of the grey levels.</summary>
    public double Noise { get; init; } = 0.005;

    /// <summary>Light of the paper at the brightest place, part of full scale.</summary>
    public double PaperLight { get; init; } = 0.8;

    /// <summary>Light of the ink over that of the paper.</summary>
    public double InkShare { get; init; } = 0.06;

    /// <summary>Share by which the light is weaker in the corners than in the middle, growing with the square of the distance.</summary>
    public double FallOff { get; init; } = 0.1;

    /// <summary>Share by which the light changes from the left edge to the right one.</summary>
    public double Slant { get; init; }

    /// <summary>Curve of the grey levels; they are whole numbers from 0 to 255.</summary>
    public PictureTones Tones { get; init; } = PictureTones.Srgb;

    /// <summary>Every how many dots one was not printed; 0 = all are there.</summary>
    public int EveryMissing { get; init; }

    /// <summary>Seed of the noise.</summary>
    public ulong Seed { get; init; } = 1;
}
