using BosFlow.Displacement;

namespace BosFlow.Validation;

/// <summary>The studies in their order.</summary>
public static class ValidationPlan
{
    /// <summary>Carries out one study after another.</summary>
    /// <param name="quick">Coarser steps and fewer frames: a few seconds a study.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    /// <returns>Results as they come.</returns>
    public static IEnumerable<StudyResult> Run(bool quick, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        double step = quick ? 0.25 : 0.05;
        yield return UniformShiftStudy.Run(0, step, settings, 0.006, cancellationToken);
        yield return UniformShiftStudy.Run(2, step, settings, 0.012, cancellationToken);
        yield return SinusoidStudy.Run(quick ? [64, 128] : [32, 40, 48, 56, 64, 80, 96, 128, 192, 256], settings, cancellationToken);
        yield return HotJetStudy.Run(quick ? 3 : 12, settings, cancellationToken);
        yield return RegistrationStudy.Run(2, isRequired: true, settings, cancellationToken);
        yield return RegistrationStudy.Run(1, isRequired: false, settings, cancellationToken);
    }
}
