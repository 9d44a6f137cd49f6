namespace BosFlow.Camera;

/// <summary>The scale of a printed board in a picture, as its own marks and dots show it.</summary>
/// <remarks>It takes the print as true to its description: what the printer stretched or shrank goes into the scale unseen.</remarks>
public sealed record BoardScale
{
    /// <summary>A relative uncertainty beyond this is told as resting on too little.</summary>
    public const double LargestRelativeSigma = 0.002;

    /// <summary>Fewer fiducials than this, without dots, are told as resting on too little: two leave the tilt almost open.</summary>
    public const int FewFiducials = 3;

    /// <summary>Mean scale over the fiducials found, m/px: one over the square root of the mean scale of area. With a lens given, px of the ideal picture.</summary>
    public required double MetresPerPixel { get; init; }

    /// <summary>Standard uncertainty of <see cref="MetresPerPixel"/>, m/px, from the misses of the fit; without what print and flatness of the board add.</summary>
    public required double MetresPerPixelSigma { get; init; }

    /// <summary>Number of fiducials found that agree on one plane.</summary>
    public required int Fiducials { get; init; }

    /// <summary>Number of patches of dots that lie where the description has them; 0 where no dots were given or none could be compared.</summary>
    public required int DotPatches { get; init; }

    /// <summary>Number of patches of dots that were looked for in the picture.</summary>
    public required int DotPatchesSought { get; init; }

    /// <summary>RMS distance of a fiducial's quarter or a patch of dots from where the fit sees it, px.</summary>
    public required double RmsPixels { get; init; }

    /// <summary>Angle between the line of sight and the board's normal, rad.</summary>
    public required double TiltRadians { get; init; }

    /// <summary>Standard uncertainty of <see cref="TiltRadians"/>, rad; large where stretch of the print, focal length and tilt look alike.</summary>
    public required double TiltSigma { get; init; }

    /// <summary><see cref="MetresPerPixelSigma"/> as part of the scale.</summary>
    public double RelativeSigma => MetresPerPixelSigma / MetresPerPixel;

    /// <summary>Whether the scale rests on too little to be held against another.</summary>
    public bool IsWeak => !(RelativeSigma <= LargestRelativeSigma) || (DotPatches == 0 && Fiducials < FewFiducials);
}
