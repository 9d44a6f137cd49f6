namespace BosFlow.Displacement;

/// <summary>A pattern of dots as the engine will see it, and the noise of its pictures.</summary>
public sealed record ExpectedPattern
{
    /// <summary>Diameter of the sharp image of a printed disc, px, greater than 0.</summary>
    public required double DiscPixels { get; init; }

    /// <summary>e^-2 diameter (four standard deviations) of all blur without the pixel, px, 0 or more.</summary>
    public required double BlurPixels { get; init; }

    /// <summary>Part of the area that discs cover, 0 to 1.</summary>
    public required double Coverage { get; init; }

    /// <summary>Grey level of the ground minus that of a disc, part of full scale, greater than 0.</summary>
    public required double Contrast { get; init; }

    /// <summary>Standard deviation of the noise of a pixel in one frame, part of full scale, 0 or more; rounding to 8 bits is added.</summary>
    public required double Noise { get; init; }

    /// <summary>Number of frames whose mean is the reference, at least 1.</summary>
    public int ReferenceFrames { get; init; } = 1;

    /// <summary>e^-2 diameter of a dot's image, px.</summary>
    public double ImagePixels => Math.Sqrt((DiscPixels * DiscPixels) + (BlurPixels * BlurPixels));

    /// <summary>Mean number of dots for each pixel.</summary>
    public double DotsPerPixel => Coverage / (Math.PI * DiscPixels * DiscPixels / 4);
}
