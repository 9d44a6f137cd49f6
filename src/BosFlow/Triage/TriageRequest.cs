using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;

namespace BosFlow.Triage;

/// <summary>Footage to be judged, and what is known of it.</summary>
public sealed record TriageRequest
{
    /// <summary>The footage.</summary>
    public required IFootage Footage { get; init; }

    /// <summary>Pixels that show the board; null = all. Same size as the frames.</summary>
    public PixelMask? Measurable { get; init; }

    /// <summary>Settings that the footage will be measured with: dots are counted in their window, and the noise floor is measured with them.</summary>
    public DisplacementSettings Displacement { get; init; } = new();

    /// <summary>Factors from px to density gradient; null where the rig is not known.</summary>
    public OpticalScale? Scale { get; init; }

    /// <summary>Bits of the file for each pixel of each frame; null where the footage is no compressed video.</summary>
    public double? BitsPerPixel { get; init; }
}
