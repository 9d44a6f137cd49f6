using BosFlow.Displacement;

namespace BosFlow.Cli.CaseFile;

/// <summary>What the words of displacement.quality stand for.</summary>
internal static class QualityPresets
{
    /// <summary>The engine's own defaults.</summary>
    public static DisplacementSettings Standard { get; } = new();

    /// <summary>A first look: fewer windows in the first pass, one pass less, the frame deformed once but where the first pass finds more, and the cheaper interpolation, at two to three times the bias.</summary>
    public static DisplacementSettings Fast { get; } = Standard with
    {
        CoarseOverlap = CoarseOverlap.Quarter,
        Passes = 2,
        LastPass = Sampling.WhereMoved,
        Interpolation = InterpolationOrder.Cubic,
    };

    /// <summary>Finest grid at this window: vectors four to a window side, which also lets the passes see finer detail; half windows where the displacement is steep.</summary>
    public static DisplacementSettings Finest { get; } = Standard with
    {
        SpacingPixels = 8,
        PredictorSmoothings = 1,
        Windows = WindowSizing.Adaptive,
    };
}
