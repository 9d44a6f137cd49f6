namespace BosFlow.Planning;

/// <summary>Keeps the rigs of which none is bettered by another in everything.</summary>
internal static class ParetoFront
{
    // Rigs that differ by less than this in everything count as one.
    private const double Alike = 0.03;

    /// <summary>The front by falling ratio, thinned to a number.</summary>
    /// <param name="candidates">All rigs.</param>
    /// <param name="most">Largest number kept, spread evenly along the front.</param>
    public static IReadOnlyList<PlanCandidate> Of(IReadOnlyList<PlanCandidate> candidates, int most)
    {
        PlanCandidate[] sorted = [.. candidates.OrderByDescending(one => Step(one.SignalToNoise)).ThenBy(one => Step(one.ResolutionMetres)).ThenBy(one => Step(one.BoardWidthMetres)).ThenByDescending(one => one.SignalToNoise)];
        var front = new List<PlanCandidate>();
        foreach (PlanCandidate one in sorted)
        {
            // All kept so far have at least this ratio: one that is as good in the other two betters it.
            if (!front.Exists(kept => Step(kept.ResolutionMetres) <= Step(one.ResolutionMetres) && Step(kept.BoardWidthMetres) <= Step(one.BoardWidthMetres)))
                front.Add(one);
        }

        return front.Count <= most ? front : [.. Enumerable.Range(0, most).Select(i => front[(int)Math.Round(i * (front.Count - 1.0) / (most - 1))])];
    }

    private static double Step(double value) => Math.Round(Math.Log(value) / Alike);
}
