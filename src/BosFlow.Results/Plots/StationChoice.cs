using BosFlow.Density;

namespace BosFlow.Results.Plots;

/// <summary>Which stations are plotted: a few, spread along the part of the axis where something is known.</summary>
internal static class StationChoice
{
    private const int Most = 5;

    public static IReadOnlyList<RadialProfile> Of(IReadOnlyList<RadialProfile> profiles)
    {
        RadialProfile[] known = [.. profiles.Where(p => p.Density.Any(double.IsFinite))];
        if (known.Length <= Most)
            return known;
        // The middles of equal parts: the ends of the axis, at the rim of the picture, say least.
        return [.. Enumerable.Range(0, Most).Select(i => known[(int)Math.Round((known.Length - 1) * (i + 0.5) / Most)])];
    }
}
