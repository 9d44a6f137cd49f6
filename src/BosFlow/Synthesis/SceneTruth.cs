using BosFlow.Displacement;

namespace BosFlow.Synthesis;

/// <summary>The exact field of a scene at the nodes of a grid. Arrays are row-major with Grid.Count entries.</summary>
public sealed class SceneTruth
{
    /// <summary>Where it is given, px of the first frame.</summary>
    public required NodeGrid Grid { get; init; }

    /// <summary>Displacement to the right of the dot that the undisturbed first frame shows at the node, px; without camera motion.</summary>
    public required float[] U { get; init; }

    /// <summary>Displacement down, px.</summary>
    public required float[] V { get; init; }

    /// <summary>
    /// Integral of d rho / dx along the ray that meets that dot, kg m-3. For a flow prescribed in px: what the displacement means by
    /// the thin-ray formula. Null where the scene has no rig.
    /// </summary>
    public float[]? DensityGradientPathX { get; init; }

    /// <summary>Integral of d rho / dy (y down) along that ray, kg m-3; null likewise.</summary>
    public float[]? DensityGradientPathY { get; init; }

    /// <summary>
    /// Density in the middle plane of the flow at the point that the node's line of sight meets in the undisturbed gas, kg/m3. In a flow that is the same along
    /// the line of sight this is the density all along it; in a round one the cut through the axis. Null where the scene has no gas flow.
    /// </summary>
    public float[]? DensityKgM3 { get; init; }

    /// <summary>Temperature at that point, K, at ambient pressure by <see cref="SceneGas"/>; null where there is no density, or the pressure is not the ambient one.</summary>
    public float[]? TemperatureKelvin { get; init; }
}
