namespace BosFlow.Synthesis;

/// <summary>A flow that is the same over a length along the optical axis and ends at two faces square to it, as between two windows that have no thickness; surrounding gas outside.</summary>
/// <param name="CentreZ">z of its middle: Z_A, m.</param>
/// <param name="LengthMetres">Length along z, m, greater than 0.</param>
/// <param name="GladstoneDaleM3PerKg">K, m3/kg.</param>
/// <param name="Profile">Density across the line of sight.</param>
/// <remarks>
/// Linear profile g: a ray along the axis is a parabola that leaves with the angle g K length / n0; with Z_D from the middle of the slab the thin formula holds
/// to first order. The faces refract by Snell's law.
/// </remarks>
public sealed record DensitySlab(double CentreZ, double LengthMetres, double GladstoneDaleM3PerKg, IDensityProfile Profile) : IIndexField
{
    /// <inheritdoc/>
    public IndexSample At(double x, double y, double z)
    {
        DensitySample density = Profile.At(x, y);
        return new IndexSample(GladstoneDaleM3PerKg * density.Excess, GladstoneDaleM3PerKg * density.GradientX, GladstoneDaleM3PerKg * density.GradientY, 0);
    }

    /// <inheritdoc/>
    public FlowStretch StretchAt(double flowX, double flowY) => new(CentreZ - (LengthMetres / 2), CentreZ + (LengthMetres / 2), HasFaces: true);
}
