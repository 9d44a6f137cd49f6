using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Density and temperature on the axis at one station, against the truth there.</summary>
/// <param name="Density">Measured density, kg/m3.</param>
/// <param name="Sigma">Its stated standard uncertainty, kg/m3.</param>
/// <param name="TrueDensity">True density at that place, kg/m3.</param>
/// <param name="Temperature">Measured temperature, K.</param>
/// <param name="TrueTemperature">True temperature, K.</param>
internal sealed record AxisPoint(double Density, double Sigma, double TrueDensity, double Temperature, double TrueTemperature)
{
    /// <summary>Error of the density in units of its sigma.</summary>
    public double ErrorInSigmas => (Density - TrueDensity) / Sigma;

    /// <summary>The points of all stations.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="density">What the run gave.</param>
    /// <param name="cancellationToken">Interrupts the tracing of the truth.</param>
    public static IReadOnlyList<AxisPoint> Of(SyntheticScene scene, DensityResult density, CancellationToken cancellationToken) =>
    [
        .. density.Profiles.Select(profile =>
        {
            SceneTruth truth = scene.TruthAt(new NodeGrid(profile.AxisX, profile.AxisY, 1, 1, 1), cancellationToken);
            return new AxisPoint(profile.Density[0], profile.SigmaDensity[0], truth.DensityKgM3![0], profile.Temperature[0], truth.TemperatureKelvin![0]);
        }),
    ];
}
