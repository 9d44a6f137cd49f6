using BosFlow.Optics;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>The factors from px to optical quantities as attributes of a file: multiply u or v (px) by them.</summary>
internal static class ScaleAttributes
{
    public static IEnumerable<NetCdfAttribute> Of(OpticalScale? scale)
    {
        if (scale is null)
            yield break;
        yield return new("background_m_per_px", scale.BackgroundMetresPerPixel);
        yield return new("flow_m_per_px", scale.FlowMetresPerPixel);
        yield return new("deflection_rad_per_px", scale.DeflectionPerPixel);
        yield return new("index_gradient_path_per_px", scale.IndexGradientPathPerPixel);
        yield return new("density_gradient_path_kg_m3_per_px", scale.DensityGradientPathPerPixel);
        if (scale.DensityGradientPerPixel is { } gradient)
            yield return new("density_gradient_kg_m4_per_px", gradient);
        yield return new("gladstone_dale_m3_per_kg", scale.GladstoneDaleM3PerKg);
        yield return new("ambient_refractive_index", scale.AmbientIndex);
    }
}
