namespace BosFlow.Numerics.Integration;

/// <summary>Values whose gradient fits the measured one best, and how well it does. Arrays are row-major.</summary>
public sealed record IntegrationResult
{
    /// <summary>Value at each node; NaN outside of the domain and where no equation reaches a node.</summary>
    public required double[] Values { get; init; }

    /// <summary>Number of the connected part that a node belongs to, in the order of the parts' first nodes; -1 where the value is NaN.</summary>
    public required int[] Part { get; init; }

    /// <summary>For each part, whether it holds a known value. A part without one is known up to a constant; its mean, weighted by the weight of each node's equations, is set to 0.</summary>
    public required bool[] IsAnchored { get; init; }

    /// <summary>Iterations of the solver.</summary>
    public required int Iterations { get; init; }

    /// <summary>Euclidean norm of the residual of the normal equations over that of their right-hand side, computed anew at the end.</summary>
    public required double RelativeResidual { get; init; }

    /// <summary>
    /// Root of the sum of squared residuals, each in units of its equation's sigma, over the number of equations in excess; NaN without excess.
    /// Near 1 for independent errors of the stated size; <see cref="SigmaEstimate.ExpectedResidualRms"/> is what correlated errors make of it.
    /// Much above it, the measured field has a curl (it is no gradient) or its sigmas are too small.
    /// </summary>
    public required double ResidualRms { get; init; }

    /// <summary>The same for each node over its own equations: a map of where the measured field is no gradient. NaN where a node has no equation.</summary>
    public required double[] NormalisedResidual { get; init; }
}
