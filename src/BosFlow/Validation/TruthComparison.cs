using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Statistics;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>The mean field of a run against the exact truth of its scene.</summary>
/// <param name="U">Displacement to the right, px.</param>
/// <param name="V">Displacement down, px.</param>
/// <param name="DensityGradientPathX">Path-integrated density gradient to the right, kg m-3; null where the run has no rig.</param>
/// <param name="DensityGradientPathY">Path-integrated density gradient down, kg m-3; null where the run has no rig.</param>
/// <param name="Density">Density as a difference to the surroundings, kg m-3; null where the run gives none or the scene knows none.</param>
/// <param name="Temperature">Temperature as a difference to the surroundings, K; null likewise.</param>
public sealed record TruthComparison(
    ComponentComparison U, ComponentComparison V, ComponentComparison? DensityGradientPathX, ComponentComparison? DensityGradientPathY,
    ComponentComparison? Density, ComponentComparison? Temperature)
{
    /// <summary>Compares a run with its scene.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="summary">The run's summary.</param>
    /// <param name="cancellationToken">Stops the ray tracing of the truth.</param>
    public static TruthComparison Of(SyntheticScene scene, RunSummary summary, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(scene);
        ArgumentNullException.ThrowIfNull(summary);
        FieldStatistics mean = summary.Statistics;
        SceneTruth truth = scene.TruthAt(mean.Grid, cancellationToken);
        ScalarField? x = summary.DerivedFields.FirstOrDefault(field => field.Name == "density_gradient_path_x");
        ScalarField? y = summary.DerivedFields.FirstOrDefault(field => field.Name == "density_gradient_path_y");
        bool hasGradient = x is not null && y is not null && truth.DensityGradientPathX is not null;
        return new TruthComparison(
            ComponentComparison.Of(mean.MeanU, mean.SigmaMeanU, truth.U, truth.V),
            ComponentComparison.Of(mean.MeanV, mean.SigmaMeanV, truth.V, truth.U),
            hasGradient ? ComponentComparison.Of(x!.Values, x.Sigma, truth.DensityGradientPathX!, truth.DensityGradientPathY!) : null,
            hasGradient ? ComponentComparison.Of(y!.Values, y.Sigma, truth.DensityGradientPathY!, truth.DensityGradientPathX!) : null,
            Excess(summary, "density", truth.DensityKgM3, OpticalScaling.AmbientDensityKgM3(scene.Recipe.Gas)),
            Excess(summary, "temperature", truth.TemperatureKelvin, scene.Recipe.Gas.AmbientTemperatureKelvin));
    }

    /// <summary>Compares what a field has beyond its value in the surroundings, so that peak and slope speak of the flow.</summary>
    private static ComponentComparison? Excess(RunSummary summary, string name, float[]? truth, double surroundings)
    {
        if (truth is null || summary.Density?.Fields.FirstOrDefault(field => field.Name == name) is not { } field)
            return null;
        return ComponentComparison.Of(Less(field.Values, surroundings), field.Sigma, Less(truth, surroundings), new float[truth.Length]);
    }

    private static float[] Less(float[] values, double surroundings) => [.. values.Select(value => (float)(value - surroundings))];
}
