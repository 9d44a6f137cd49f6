using BosFlow.Cli.CaseFile;
using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Cli.Planning;

/// <summary>Carries out the sweeps and the search that a plan was asked for.</summary>
internal static class PlanStudies
{
    /// <summary>Names of the pictures that will come out.</summary>
    /// <param name="settings">What was asked for.</param>
    public static IReadOnlyList<string> PictureNames(PlanSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return [.. settings.Sweeps.Count > 0 ? [SweepStudy.FileName] : Array.Empty<string>(), .. settings.Optimise ? [OptimumStudy.FileName] : Array.Empty<string>()];
    }

    /// <summary>Carries them out.</summary>
    /// <param name="plan">The case.</param>
    /// <param name="result">Its plan.</param>
    /// <param name="axes">Quantities that are varied, none to two.</param>
    /// <param name="optimise">Whether the best rigs are looked for.</param>
    /// <param name="cancellationToken">Stops between two rigs.</param>
    /// <exception cref="ConfigurationException">No rig is within the limits; one sentence for each obstacle.</exception>
    public static IReadOnlyList<PlanStudy> Of(PlanCase plan, PlanResult result, IReadOnlyList<SweepAxis> axes, bool optimise, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(axes);
        List<PlanStudy> studies = [];
        if (axes.Count == 1)
            studies.Add(SweepStudy.Of(result, axes[0], PlanSweep.Run(plan.Request, axes[0].Quantity, axes[0].Values, cancellationToken)));
        else if (axes.Count == 2)
            studies.Add(SweepMapStudy.Of(result, axes[0], axes[1], [.. axes[1].Values.Select(value => PlanSweep.Run(PlanSweep.With(plan.Request, axes[1].Quantity, value), axes[0].Quantity, axes[0].Values, cancellationToken))]));
        if (optimise)
            studies.Add(OptimumStudy.Of(result, Optimum(plan, cancellationToken)));
        return studies;
    }

    private static PlanOptimum Optimum(PlanCase plan, CancellationToken cancellationToken)
    {
        PlanOptimum optimum = PlanOptimiser.Find(plan.Request, plan.Limits, cancellationToken);
        return optimum.Best is not null
            ? optimum
            : throw new ConfigurationException(["No rig is within the limits; the nearest one fails as follows. Loosen these limits, or give more focal_lengths_mm to choose from.", .. optimum.Obstacles]);
    }
}
