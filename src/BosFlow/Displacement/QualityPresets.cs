namespace BosFlow.Displacement;

/// <summary>What the words of displacement.quality stand for.</summary>
public static class QualityPresets
{
    /// <summary>The engine's own defaults.</summary>
    public static DisplacementSettings Standard { get; } = new();

    /// <summary>A first look: fewer windows in the first pass, one pass less, the frame deformed once but where the first pass finds more, and the cheaper interpolation, at two to three times the bias.</summary>
    public static DisplacementSettings Fast { get; } = FastWith(Standard);

    /// <summary>Finest grid at this window: vectors four to a window side, which also lets the passes see finer detail; half windows where the displacement is steep.</summary>
    public static DisplacementSettings Finest { get; } = FinestWith(Standard);

    /// <summary>The same as <see cref="Fast"/> with windows and tests of one's own.</summary>
    /// <param name="settings">What the word does not stand for is taken from here.</param>
    public static DisplacementSettings FastWith(DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return settings with { CoarseOverlap = CoarseOverlap.Quarter, Passes = 2, LastPass = Sampling.WhereMoved, Interpolation = InterpolationOrder.Cubic };
    }

    /// <summary>The same as <see cref="Finest"/> with windows and tests of one's own.</summary>
    /// <param name="settings">What the word does not stand for is taken from here.</param>
    public static DisplacementSettings FinestWith(DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return settings with { SpacingPixels = settings.WindowPixels / 4, PredictorSmoothings = 1, Windows = WindowSizing.Adaptive };
    }
}
