using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>Looks for the best distances, lens and aperture within limits, by judging them all.</summary>
/// <remarks>
/// Weighed are the ratio of signal to noise (larger), the resolution (shorter wavelength) and the width of the board (smaller). The best is the one with the largest ratio over resolution: noise times resolution
/// is the fair figure of merit of a measurement of displacement (common practice, no source).
/// </remarks>
public static class PlanOptimiser
{
    private const int MostDistances = 40;
    private const int LeastDistances = 12;
    private const int MostRigs = 120_000;
    private const int FineDistances = 9;
    private const int Refined = 24;

    /// <summary>Looks through distances on a logarithmic grid, all lenses and all f-numbers, then on a finer grid around the best.</summary>
    /// <param name="request">Camera, board, gas, flow and engine; its distances, lens and aperture where the limits leave no choice.</param>
    /// <param name="limits">What the rig may be.</param>
    /// <param name="cancellationToken">Stops between two distances.</param>
    /// <returns>Front and best, or what stands in the way. The same whatever the number of threads.</returns>
    /// <exception cref="ConfigurationException">Request or limits cannot be; one sentence for each problem.</exception>
    public static PlanOptimum Find(PlanRequest request, PlanLimits limits, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(limits);
        PlanContext.ThrowIfWrong(request);
        PlanSearchRange range = PlanSearchRange.Of(request, limits);
        PlanContext context = PlanContext.ForMany(request);
        var search = new PlanSearch(context, request, limits, cancellationToken);
        int distances = Math.Clamp((int)Math.Sqrt(MostRigs / (range.Lenses.Count * range.FNumbers.Count)), LeastDistances, MostDistances);
        search.Look(range.Lenses, range.FNumbers, Grid(range.LensToFlow, distances), Grid(range.FlowToBackground, distances));
        if (search.Found.Count == 0)
            return new PlanOptimum([], null, search.Obstacles(), search.Judged);
        foreach (PlanCandidate rough in ParetoFront.Of(search.Found, Refined))
        {
            RigGeometry rig = rough.Request.Rig;
            search.Look(
                [rig.FocalLengthMetres!.Value], [rig.FNumber!.Value],
                Grid(Near(rig.LensToFlowMetres, range.LensToFlow, distances), FineDistances), Grid(Near(rig.FlowToBackgroundMetres, range.FlowToBackground, distances), FineDistances));
        }

        IReadOnlyList<PlanCandidate> front = ParetoFront.Of(search.Found, Refined);
        return new PlanOptimum(front, search.Found.MaxBy(Merit), [], search.Judged);
    }

    private static double Merit(PlanCandidate candidate) => candidate.SignalToNoise / candidate.ResolutionMetres;

    /// <summary>Values in equal ratios from one end to the other; one value where both are the same.</summary>
    private static double[] Grid((double From, double To) range, int count) =>
        range.From >= range.To ? [range.From] : [.. Enumerable.Range(0, count).Select(i => range.From * Math.Pow(range.To / range.From, i / (count - 1.0)))];

    private static (double From, double To) Near(double value, (double From, double To) range, int distances)
    {
        double step = Math.Pow(range.To / range.From, 1.0 / (distances - 1));
        return (Math.Max(range.From, value / step), Math.Min(range.To, value * step));
    }
}
