namespace BosFlow.Numerics.Integration;

/// <summary>Standard uncertainty of integrated values, estimated from random probes. Arrays are row-major.</summary>
public sealed record SigmaEstimate
{
    /// <summary>Standard uncertainty at each node; NaN where there is no value. In a part without known value: that of the difference to the part's weighted mean.</summary>
    public required double[] Sigma { get; init; }

    /// <summary>Number of probes N.</summary>
    public required int Probes { get; init; }

    /// <summary>Relative standard error of each <see cref="Sigma"/>, 1 / sqrt(2 N).</summary>
    public double RelativeStandardError => 1 / Math.Sqrt(2.0 * Probes);

    /// <summary>Root mean square of <see cref="IntegrationResult.ResidualRms"/> over the probes: what errors as stated make of it.</summary>
    public required double ExpectedResidualRms { get; init; }
}
