using BosFlow.Displacement;

namespace BosFlow.Cli.CaseFile;

/// <summary>What the words of displacement.quality stand for.</summary>
internal static class QualityPresets
{
    /// <summary>The engine's own defaults.</summary>
    public static DisplacementSettings Standard { get; } = new();

    /// <summary>A first look: few passes and the cheaper sub-pixel fit.</summary>
    public static DisplacementSettings Fast { get; } = Standard with
    {
        Passes = 1,
        SubPixel = SubPixelMethod.ThreePointGaussian,
        Interpolation = InterpolationOrder.Cubic,
    };

    /// <summary>Least noise and finest grid at this window: more passes, vectors four to a window side.</summary>
    public static DisplacementSettings Finest { get; } = Standard with
    {
        Passes = 5,
        SpacingPixels = 8,
        PredictorSmoothings = 1,
    };
}
