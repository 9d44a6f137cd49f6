namespace BosFlow.Displacement;

/// <summary>What the sampling of a reference makes of displacements: how large its dots are, and the wave of the fraction of a pixel that interpolation leaves, error = amplitude times sin(2 pi u).</summary>
public sealed record SamplingFacts
{
    /// <summary>e^-2 diameter of the dots in the reference, px, the pixel's own width included; null where it shows none.</summary>
    public required double? DotPixels { get; init; }

    /// <summary>Amplitude that is told from the reference's spectrum and taken off every u, px; 0 = nothing is.</summary>
    public required double BiasTakenOffU { get; init; }

    /// <summary>The same for v.</summary>
    public required double BiasTakenOffV { get; init; }

    /// <summary>Amplitude of what stays and is part of sigma, px.</summary>
    public required double BiasLeft { get; init; }
}
