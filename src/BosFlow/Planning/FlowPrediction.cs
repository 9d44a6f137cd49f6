namespace BosFlow.Planning;

/// <summary>What an expected flow does to the picture.</summary>
public sealed record FlowPrediction
{
    /// <summary>What it is, one line.</summary>
    public required string Description { get; init; }

    /// <summary>Where its formulas come from.</summary>
    public required string Source { get; init; }

    /// <summary>Largest deflection, rad.</summary>
    public required double DeflectionRadians { get; init; }

    /// <summary>Density of the flow where it differs most from the surroundings, kg/m3; null where it plays no part.</summary>
    public required double? Density { get; init; }

    /// <summary>Temperature there, K; null where it plays no part.</summary>
    public required double? Temperature { get; init; }

    /// <summary>Size of the structure, m: for a round flow the 1/e radius.</summary>
    public required double SizeMetres { get; init; }

    /// <summary>Largest displacement before window and aperture average it, px.</summary>
    public required double DisplacementPixels { get; init; }

    /// <summary>Part of it that is left behind window, aperture and pixel, 0 to 1.</summary>
    public required double Response { get; init; }

    /// <summary>Largest displacement that is measured, px.</summary>
    public double MeasuredPixels => DisplacementPixels * Response;

    /// <summary>Largest change of the displacement from pixel to pixel, 1; above 0.1 dots smear.</summary>
    public required double StrainPerPixel { get; init; }

    /// <summary>Measured displacement over its noise in one frame.</summary>
    public required double SignalToNoise { get; init; }

    /// <summary>Measured displacement over the noise of the mean.</summary>
    public required double MeanSignalToNoise { get; init; }

    /// <summary>Verdict for one frame.</summary>
    public required Detectability OneFrame { get; init; }

    /// <summary>Verdict for the mean.</summary>
    public required Detectability Mean { get; init; }

    /// <summary>How far the flow moves during the exposure, px in the flow plane; null where its speed or the exposure is not known.</summary>
    public required double? SmearPixels { get; init; }
}
