using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>A field without the motion of the background.</summary>
/// <param name="Field">What the motion leaves.</param>
/// <param name="Motion">The motion that was taken out.</param>
/// <param name="NoiseFloorU">RMS of what is left of u on the undisturbed region, px; NaN where it is not known.</param>
/// <param name="NoiseFloorV">RMS of what is left of v, px.</param>
/// <param name="Warnings">One sentence each.</param>
internal sealed record BackgroundRemoval(
    VectorField Field, IPictureMotion Motion, double NoiseFloorU, double NoiseFloorV, IReadOnlyList<string> Warnings)
{
    /// <summary>What sigma_u was multiplied by (<see cref="BirgeRatio"/>).</summary>
    public double SigmaFactorU { get; init; } = 1;

    /// <summary>What sigma_v was multiplied by.</summary>
    public double SigmaFactorV { get; init; } = 1;
}
