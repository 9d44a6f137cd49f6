using BosFlow.Displacement;

namespace BosFlow.Benchmarks;

/// <summary>The engine settings that are measured: what the words of [displacement] quality stand for.</summary>
internal static class EngineSettings
{
    /// <summary>quality = "standard", the default.</summary>
    public static DisplacementSettings Standard => QualityPresets.Standard;

    /// <summary>quality = "fast".</summary>
    public static DisplacementSettings Fast => QualityPresets.Fast;

    /// <summary>quality = "fast" with spacing_px = 8.</summary>
    public static DisplacementSettings FastDense => QualityPresets.Fast with { SpacingPixels = 8 };

    /// <summary>quality = "finest".</summary>
    public static DisplacementSettings Finest => QualityPresets.Finest;
}
