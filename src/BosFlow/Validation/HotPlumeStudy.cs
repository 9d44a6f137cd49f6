using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Registration;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>The whole pipeline from footage to density and temperature on the axis of a ray-traced column of hot air.</summary>
public static class HotPlumeStudy
{
    private const double LargestDensityError = 2;
    private const double LargestTemperatureError = 3;
    private const double LargestErrorInSigmas = 1;

    /// <summary>Carries the study out.</summary>
    /// <param name="place">Where, in one word: "laboratory".</param>
    /// <param name="recipe">A scene of <see cref="PlumeScenes"/>.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(string place, SceneRecipe recipe, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentException.ThrowIfNullOrEmpty(place);
        ArgumentNullException.ThrowIfNull(recipe);
        ArgumentNullException.ThrowIfNull(settings);
        var scene = new SyntheticScene(recipe, cancellationToken);
        MemoryRunStore store = SceneRun.Measure(scene, new SceneFootage(scene), MotionModel.Similarity, settings, cancellationToken, new FlowSettings { Shape = FlowShape.Axisymmetric });
        DensityResult density = store.Summary!.Density!;
        IReadOnlyList<AxisPoint> axis = AxisPoint.Of(scene, density, cancellationToken);
        SceneTruth truth = scene.TruthAt(density.Grid, cancellationToken);
        ErrorStatistics field = FieldComparison.Of(density, "density", truth.DensityKgM3!);
        TruthComparison displacement = TruthComparison.Of(scene, store.Summary, cancellationToken);

        var jet = (FlowRecipe.Jet)recipe.Flow;
        string study = FormattableString.Invariant($"hot plume, {place}, {jet.TemperatureKelvin:F0} K");
        double meanTruth = axis.Average(point => point.TrueDensity);
        Figure[] figures =
        [
            new(study, "density on the axis, error of the mean over the stations", 100 * Math.Abs((axis.Average(point => point.Density) / meanTruth) - 1), "%", null, LargestDensityError),
            new(study, "density on the axis, largest error of a station", 100 * axis.Max(point => Math.Abs((point.Density / point.TrueDensity) - 1)), "%", null, null),
            new(study, "temperature on the axis, error of the mean over the stations", 100 * Math.Abs((axis.Average(point => point.Temperature) / axis.Average(point => point.TrueTemperature)) - 1), "%", null, LargestTemperatureError),
            new(study, "temperature on the axis, largest error of a station", 100 * axis.Max(point => Math.Abs((point.Temperature / point.TrueTemperature) - 1)), "%", null, null),
            new(study, "density on the axis, RMS error over its stated sigma", Math.Sqrt(axis.Average(point => point.ErrorInSigmas * point.ErrorInSigmas)), "1", null, LargestErrorInSigmas),
            new(study, "density on the axis, stated sigma", 100 * axis.Average(point => point.Sigma / point.TrueDensity), "%", null, null),
            new(study, "whole cross-section: RMS error of density", field.Rms, "kg m-3", null, null),
            new(study, "whole cross-section: share of errors within 1 sigma", field.CoverageOneSigma, "1", null, null),
            new(study, "whole cross-section: share of errors within 1.96 sigma", field.Coverage95, "1", null, null),
            new(study, "displacement u: slope of measured on true", displacement.U.Slope, "1", null, null),
        ];
        string description = FormattableString.Invariant(
            $"A column of air of {jet.TemperatureKelvin:F0} K, {jet.HalfWidthMetres * 1e3:F0} mm half-width (1/e), leaning by {90 - jet.DirectionDegrees:F0} degrees, ray-traced in three dimensions; lens {recipe.Rig!.LensToFlowMetres} m before and board {recipe.Rig.FlowToBackgroundMetres} m behind it, f = {recipe.Rig.FocalLengthMetres * 1e3:F0} mm, {scene.View!.FlowMetresPerPixel * 1e3:F4} mm/px; {recipe.Width} x {recipe.Height} px, dots of {recipe.Speckle.DotDiameterPixels} px, 8 bit, noise {recipe.Sensor.NoisePercent} %; {recipe.FlowOffCount} flow-off and {recipe.FrameCount - recipe.FlowOffCount} flow frames; largest displacement {displacement.U.Peak:F3} px. The axis is found from the symmetry. {axis.Count} stations along it.");
        return new StudyResult(FormattableString.Invariant($"Hot plume, {place}, {jet.TemperatureKelvin:F0} K"), description, figures, [Table(FormattableString.Invariant($"hot-plume-{place}-{jet.TemperatureKelvin:F0}-k"), density, scene, cancellationToken)]);
    }

    /// <summary>The profile at the middle station.</summary>
    private static StudyTable Table(string name, DensityResult density, SyntheticScene scene, CancellationToken cancellationToken)
    {
        RadialProfile profile = density.Profiles[density.Profiles.Count / 2];
        var rows = new List<IReadOnlyList<double>>();
        for (int i = 0; i < profile.RadiusMetres.Length; i++)
        {
            // Across the axis from the station: the truth of the cross-section at that place.
            double pixels = profile.RadiusMetres[i] / scene.View!.FlowMetresPerPixel;
            (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(density.Axis!.DirectionDegrees));
            SceneTruth truth = scene.TruthAt(new NodeGrid(profile.AxisX + (pixels * sine), profile.AxisY + (pixels * cosine), 1, 1, 1), cancellationToken);
            rows.Add([1e3 * profile.RadiusMetres[i], truth.DensityKgM3![0], profile.Density[i], profile.SigmaDensity[i], truth.TemperatureKelvin![0], profile.Temperature[i], profile.SigmaTemperature[i]]);
        }

        return new StudyTable(
            name, "Profile across the middle of the plume",
            ["radius (mm)", "true density (kg m-3)", "density (kg m-3)", "stated sigma (kg m-3)", "true temperature (K)", "temperature (K)", "stated sigma (K)"], rows);
    }
}
