using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>The conversion to density within a run, where the case asks for one.</summary>
internal static class DensityStep
{
    /// <summary>Refuses what cannot become a density, before any frame is measured.</summary>
    /// <exception cref="ConfigurationException">Rig, gas and flow do not allow it.</exception>
    public static void Check(ExperimentCase experiment, FootageInfo info)
    {
        if (experiment.Rig is not null && DensityConverter.IsWanted(experiment.Flow))
            DensityConverter.Check(experiment.Rig, experiment.Gas, experiment.Flow, info.Width, info.Height);
    }

    /// <summary>Converts the mean displacement; null where the case asks for no density or has no rig.</summary>
    public static DensityResult? Convert(RunRequest request, FieldStatistics mean, CancellationToken cancellationToken)
    {
        ExperimentCase experiment = request.Case;
        if (experiment.Rig is null || !DensityConverter.IsWanted(experiment.Flow))
            return null;
        var asked = new DensityRequest
        {
            Mean = mean,
            Rig = experiment.Rig,
            Gas = experiment.Gas,
            Flow = experiment.Flow,
            Width = request.Footage.Info.Width,
            Height = request.Footage.Info.Height,
            ErrorCorrelation = WindowOverlap.Correlation(experiment.Displacement.WindowPixels, mean.Grid.Spacing, experiment.Displacement.Weighting),
            Threads = request.Options.Threads,
        };
        return DensityConverter.Convert(asked, cancellationToken);
    }
}
