using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Synthesis;

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
        foreach (StudyResult result in Densities(quick, settings, cancellationToken))
            yield return result;
    }

    /// <summary>From footage to density and temperature.</summary>
    private static IEnumerable<StudyResult> Densities(bool quick, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        const int FlowOff = 6;
        const int FlowOn = 6;
        const ulong Seed = 5;
        yield return DeflectionStudy.Run(settings, cancellationToken);
        yield return ObliqueShockStudy.Run(settings, cancellationToken);
        foreach (double temperature in quick ? (double[])[600] : [600, 900])
        {
            yield return HotPlumeStudy.Run("laboratory", PlumeScenes.Laboratory(temperature, FlowOff, FlowOn, Seed), settings, cancellationToken);
            yield return HotPlumeStudy.Run("onboard", PlumeScenes.Onboard(temperature, FlowOff, FlowOn, Seed), settings, cancellationToken);
        }

        int scenes = quick ? 4 : 12;
        foreach (FlowShape shape in (FlowShape[])[FlowShape.Planar, FlowShape.Axisymmetric])
        {
            yield return DensityCoverageStudy.Run(shape, scenes, 3, isRequired: true, settings, cancellationToken);
            // With little noise the bias of interpolation, which neighbours share, is what counts.
            if (!quick)
                yield return DensityCoverageStudy.Run(shape, scenes, 1, isRequired: false, settings, cancellationToken);
        }
    }
}
