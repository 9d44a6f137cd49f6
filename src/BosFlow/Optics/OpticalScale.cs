namespace BosFlow.Optics;

/// <summary>
/// The factors that turn a displacement in px into optical and gas quantities. All are linear; the sign of
/// deflection against displacement (u = -Z_D eps / S) is inside them.
/// </summary>
public sealed record OpticalScale
{
    /// <summary>Scale in the background plane, m/px.</summary>
    public required double BackgroundMetresPerPixel { get; init; }

    /// <summary>Scale in the flow plane, m/px.</summary>
    public required double FlowMetresPerPixel { get; init; }

    /// <summary>Deflection angle for 1 px of displacement, rad/px (negative).</summary>
    public required double DeflectionPerPixel { get; init; }

    /// <summary>Path integral of the refractive-index gradient for 1 px, 1/px (negative).</summary>
    public required double IndexGradientPathPerPixel { get; init; }

    /// <summary>Path integral of the density gradient for 1 px, kg m-3 / px (negative).</summary>
    public required double DensityGradientPathPerPixel { get; init; }

    /// <summary>Density gradient for 1 px where the path length is known, kg m-4 / px (negative); null where it is not.</summary>
    public double? DensityGradientPerPixel { get; init; }

    /// <summary>Gladstone-Dale coefficient used, m3/kg.</summary>
    public required double GladstoneDaleM3PerKg { get; init; }

    /// <summary>Refractive index of the surrounding gas used, 1.</summary>
    public required double AmbientIndex { get; init; }
}
