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
    /// <param name="compression">A recorder, for the studies of compression, which are too long for quick ones; null = none is there.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    /// <returns>Results as they come.</returns>
    public static IEnumerable<StudyResult> Run(bool quick, DisplacementSettings settings, SceneCompression? compression, CancellationToken cancellationToken)
    {
        double step = quick ? 0.25 : 0.05;
        yield return UniformShiftStudy.Run(0, step, settings, 0.006, cancellationToken);
        yield return UniformShiftStudy.Run(2, step, settings, 0.012, cancellationToken);
        foreach (StudyResult result in Sigmas(quick, settings, cancellationToken))
            yield return result;
        if (!quick)
            yield return IsolatedWindowsStudy.Run([2, 3, 5], 22, settings, cancellationToken);
        yield return SinusoidStudy.Run(quick ? [64, 128] : [32, 40, 48, 56, 64, 80, 96, 128, 192, 256], settings, cancellationToken);
        if (!quick)
        {
            yield return JointReferenceStudy.Run(3, 0, 0.002, 0.003, settings, cancellationToken);
            yield return JointReferenceStudy.Run(3, 1, 0.002, null, settings, cancellationToken);
            yield return JointReferenceStudy.Run(2, 0, 0.005, null, settings, cancellationToken);
            yield return JointReferenceStudy.Run(2, 2, 0.005, null, settings, cancellationToken);
            yield return HardSceneStudy.Run("standard", settings, cancellationToken);
            yield return HardSceneStudy.Run("finest", QualityPresets.FinestWith(settings), cancellationToken);
            yield return QuadraticWindowsStudy.Run(16, QualityPresets.FinestWith(settings) with { Windows = WindowSizing.Fixed }, Quadratic(settings), cancellationToken);
        }

        yield return HotJetStudy.Run(quick ? 3 : 12, settings, cancellationToken);
        yield return RegistrationStudy.Run(2, isRequired: true, settings, cancellationToken);
        yield return RegistrationStudy.Run(1, isRequired: false, settings, cancellationToken);
        yield return LensStudy.Run(settings, cancellationToken);
        yield return LensRunStudy.Run(settings, cancellationToken);
        yield return DriftStudy.Run(settings, cancellationToken);
        if (!quick)
        {
            yield return RollingShutterStudy.Run(12, 24, 2, isRequired: true, settings, cancellationToken);
            yield return RollingShutterStudy.Run(12, 24, 1, isRequired: true, settings, cancellationToken);
            foreach (double noisePercent in compression is null ? (double[])[] : [2, 1])
                yield return RollingShutterStudy.RunCompressed(12, 24, noisePercent, compression!, settings, cancellationToken);
            yield return LensRowsStudy.Run(settings, cancellationToken);
        }

        foreach (StudyResult result in Densities(quick, settings, cancellationToken))
            yield return result;
    }

    private static DisplacementSettings Quadratic(DisplacementSettings settings) =>
        QualityPresets.FinestWith(settings) with { WindowPixels = DisplacementSettings.QuadraticWindowPixels, Windows = WindowSizing.Fixed, Shape = WindowShape.Quadratic };

    /// <summary>Stated against true errors: the settings of every quality.</summary>
    private static IEnumerable<StudyResult> Sigmas(bool quick, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        double[] dots = quick ? [2, 4] : [2, 3, 4, 5];
        double[] noise = quick ? [1, 5] : [0.5, 1, 2, 5];
        // What interpolation does to dots of 2 px is counted too high where windows have shapes (see EdgeShare); cubic interpolation has a bias that outdoes little noise.
        yield return SigmaStudy.Run("standard", settings, dots, noise, _ => true, cancellationToken);
        yield return SigmaStudy.Run("finest", QualityPresets.FinestWith(settings), dots, noise, _ => true, cancellationToken);
        if (!quick)
            yield return SigmaStudy.Run("quadratic", Quadratic(settings), dots, noise, dot => dot > 2, cancellationToken);
        if (!quick)
            yield return SigmaStudy.Run("fast", QualityPresets.FastWith(settings), dots, noise, _ => false, cancellationToken);
    }

    /// <summary>From footage to density and temperature.</summary>
    private static IEnumerable<StudyResult> Densities(bool quick, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        int flowOff = quick ? 4 : 6;
        int flowOn = quick ? 4 : 6;
        const ulong Seed = 5;
        yield return DeflectionStudy.Run(settings, cancellationToken);
        yield return ObliqueShockStudy.Run(settings, cancellationToken);
        foreach (double temperature in quick ? (double[])[600] : [600, 900])
        {
            yield return HotPlumeStudy.Run("laboratory", PlumeScenes.Laboratory(temperature, flowOff, flowOn, Seed), settings, cancellationToken);
            yield return HotPlumeStudy.Run("onboard", PlumeScenes.Onboard(temperature, flowOff, flowOn, Seed), settings, cancellationToken);
        }

        yield return PlanStudy.Run("laboratory", PlanStudy.Laboratory, quick ? 4 : 10, cancellationToken);
        yield return PlanStudy.Run("onboard", PlanStudy.Onboard, quick ? 4 : 10, cancellationToken);
        // With 3 % the noise decides; with 1 % what is left of the bias of interpolation and the place of the axis, which the vectors of a scene share, so that it takes many scenes.
        foreach (double noisePercent in quick ? (double[])[3] : [1, 3])
        {
            yield return DensityCoverageStudy.Run(FlowShape.Planar, quick ? 4 : 12, noisePercent, settings, cancellationToken);
            yield return DensityCoverageStudy.Run(FlowShape.Axisymmetric, quick ? 4 : noisePercent < 3 ? 36 : 12, noisePercent, settings, cancellationToken);
        }
    }
}
