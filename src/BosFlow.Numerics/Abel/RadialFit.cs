namespace BosFlow.Numerics.Abel;

/// <summary>A radial profile fitted to slopes of its projection. It is a linear map of the slopes for the strength that was chosen.</summary>
public sealed class RadialFit
{
    private readonly double[] matrix;
    private readonly int slopes;

    internal RadialFit(double[] matrix, int slopes)
    {
        this.matrix = matrix;
        this.slopes = slopes;
    }

    /// <summary>Radii that were asked for.</summary>
    public required double[] Radius { get; init; }

    /// <summary>Profile at the radii, in the unit of the slope; 0 at and beyond the outer radius.</summary>
    public required double[] Value { get; init; }

    /// <summary>Standard uncertainty from the errors of the slopes as stated in the problem, for the strength as chosen. It does not hold what smoothing flattens: see <see cref="ResolutionWidth"/>.</summary>
    public required double[] Sigma { get; init; }

    /// <summary>
    /// Width of the averaging kernel k(r') at each radius, (INT k dr')^2 / INT k^2 dr' over r' from 0 to the outer radius: the width of a box that averages as much, in the unit
    /// of the radius. Detail finer than this is flattened. Where smoothing is so strong that the kernel no longer peaks at its own radius, the width does not tell that. NaN at and beyond the outer radius.
    /// </summary>
    public required double[] ResolutionWidth { get; init; }

    /// <summary>Strength of smoothing: factor of INT f''(r)^2 dr beside the sum of squared normalised residuals.</summary>
    public required double Strength { get; init; }

    /// <summary>Effective number of parameters: trace of the map from slopes to fitted slopes.</summary>
    public required double EffectiveParameters { get; init; }

    /// <summary>Root of the sum of squared residuals, each over its sigma, over the number of slopes less <see cref="EffectiveParameters"/>: near 1 where the sigmas are right. NaN where no slope is in excess.</summary>
    public required double ResidualRms { get; init; }

    /// <summary>Weights of all slopes (0 for those not used) in each value, row-major, radii * slopes.</summary>
    public ReadOnlySpan<double> Matrix => matrix;

    /// <summary>Covariance of the profile for any covariance of the slopes.</summary>
    /// <param name="slopeCovariance">Covariance of the slopes, row-major, as many rows and columns as there are slopes.</param>
    /// <returns>Row-major, radii * radii.</returns>
    /// <exception cref="ArgumentException">The covariance has another size.</exception>
    public double[] Covariance(ReadOnlySpan<double> slopeCovariance)
    {
        if (slopeCovariance.Length != slopes * slopes)
            throw new ArgumentException($"The covariance has {slopeCovariance.Length} entries for {slopes} slopes; it needs {slopes * slopes}.");
        return LinearPropagation.Covariance(matrix, Radius.Length, slopes, slopeCovariance);
    }
}
