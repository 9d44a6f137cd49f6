namespace BosFlow.Density;

/// <summary>Radial profile of an axisymmetric flow at one station along its axis. Arrays run over the radii.</summary>
/// <remarks>Every sigma is one standard uncertainty; NaN where a value could not be determined.</remarks>
public sealed record RadialProfile
{
    /// <summary>Number of the station, from 0 at the start of the axis.</summary>
    public required int Station { get; init; }

    /// <summary>Position along the axis from its start, m in the flow plane.</summary>
    public required double AxialMetres { get; init; }

    /// <summary>x of the station on the axis, px of the reference.</summary>
    public required double AxisX { get; init; }

    /// <summary>y of the station on the axis, px of the reference.</summary>
    public required double AxisY { get; init; }

    /// <summary>Distances from the axis, m, ascending from 0.</summary>
    public required double[] RadiusMetres { get; init; }

    /// <summary>Density, kg/m3.</summary>
    public required double[] Density { get; init; }

    /// <summary>Standard uncertainty of the density, all contributions, kg/m3.</summary>
    public required double[] SigmaDensity { get; init; }

    /// <summary>The part of it that comes from the measured displacement, kg/m3.</summary>
    public required double[] SigmaDensityRandom { get; init; }

    /// <summary>Temperature, K; NaN where none is given.</summary>
    public required double[] Temperature { get; init; }

    /// <summary>Standard uncertainty of the temperature, K.</summary>
    public required double[] SigmaTemperature { get; init; }

    /// <summary>Density from the left half alone (left when looking along the axis), kg/m3.</summary>
    public required double[] DensityLeft { get; init; }

    /// <summary>Density from the right half alone, kg/m3.</summary>
    public required double[] DensityRight { get; init; }

    /// <summary>What holds at each radius.</summary>
    public required DensityFlags[] Flags { get; init; }
}
