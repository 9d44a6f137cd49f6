namespace BosFlow.Planning;

/// <summary>A rig found within limits, with what was weighed.</summary>
public sealed record PlanCandidate
{
    /// <summary>The whole request, to be judged in full.</summary>
    public required PlanRequest Request { get; init; }

    /// <summary>Measured displacement over its noise in one frame; without an expected flow, displacement for a deflection of 1 mrad over the noise.</summary>
    public required double SignalToNoise { get; init; }

    /// <summary>Wavelength in the flow plane of which a half is left, m.</summary>
    public required double ResolutionMetres { get; init; }

    /// <summary>Width that the board needs to fill the view, m.</summary>
    public required double BoardWidthMetres { get; init; }

    /// <summary>Height that the board needs to fill the view, m.</summary>
    public required double BoardHeightMetres { get; init; }

    /// <summary>Width of the view in the flow plane, m.</summary>
    public required double ViewWidthMetres { get; init; }

    /// <summary>Stops of light more (positive) or less than with the f-number asked for.</summary>
    public required double LightStops { get; init; }
}
