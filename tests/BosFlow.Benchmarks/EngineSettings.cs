using BosFlow.Cli.CaseFile;
using BosFlow.Displacement;

namespace BosFlow.Benchmarks;

/// <summary>The engine settings that are measured: what the words of [displacement] quality stand for.</summary>
internal static class EngineSettings
{
    /// <summary>quality = "standard", the default.</summary>
    public static DisplacementSettings Standard => QualityPresets.Standard;

    /// <summary>quality = "fast".</summary>
    public static DisplacementSettings Fast => QualityPresets.Fast;
}
