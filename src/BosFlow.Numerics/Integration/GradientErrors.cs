namespace BosFlow.Numerics.Integration;

/// <summary>How the errors of a measured gradient hang together between nodes.</summary>
/// <remarks>
/// Errors of the two components are independent of each other. Errors of one component at two nodes, m columns and n rows apart, have the correlation
/// <see cref="CorrelationAlongX"/>[m] * <see cref="CorrelationAlongY"/>[n]; beyond the arrays' ends it is 0.
/// </remarks>
public sealed record GradientErrors
{
    /// <summary>Correlation by distance in columns; the first entry is 1.</summary>
    public double[] CorrelationAlongX { get; init; } = [1];

    /// <summary>Correlation by distance in rows; the first entry is 1.</summary>
    public double[] CorrelationAlongY { get; init; } = [1];

    /// <summary>Standard uncertainty of an error that all known values share: it moves every anchored part as a whole. 0 for exact values.</summary>
    public double KnownSigma { get; init; }

    /// <summary>Errors of different nodes are independent, known values are exact.</summary>
    public static GradientErrors Independent { get; } = new();

    internal void Validate()
    {
        Check(CorrelationAlongX, nameof(CorrelationAlongX));
        Check(CorrelationAlongY, nameof(CorrelationAlongY));
        if (!(KnownSigma >= 0) || double.IsInfinity(KnownSigma))
            throw new ArgumentException($"{nameof(KnownSigma)} is {KnownSigma}; it must be 0 or above and finite.");
    }

    private static void Check(double[] correlation, string name)
    {
        if (correlation.Length == 0 || correlation[0] != 1 || !correlation.All(value => value is >= -1 and <= 1))
            throw new ArgumentException($"{name} must begin with 1 and hold values from -1 to 1.");
    }
}
