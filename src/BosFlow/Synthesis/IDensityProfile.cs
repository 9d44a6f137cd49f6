namespace BosFlow.Synthesis;

/// <summary>Density in the plane across the line of sight of a flow that is the same all along it; axes of <see cref="ViewGeometry"/>. Implementations are immutable and safe to use from several threads.</summary>
public interface IDensityProfile
{
    /// <summary>The density at a point of the flow plane.</summary>
    /// <param name="x">x (right), m.</param>
    /// <param name="y">y (down), m.</param>
    DensitySample At(double x, double y);
}
