using BosFlow.Density;
using BosFlow.Optics;

namespace BosFlow.Results.Maps;

/// <summary>What of a density can be shown together: densities, or else only differences.</summary>
internal static class DensityView
{
    /// <summary>Whether no place at all has a density, but some have a difference to the mean.</summary>
    public static bool IsDifference(DensityResult density)
    {
        ScalarField? field = density.Fields.Count > 0 ? density.Fields[0] : null;
        if (field?.Name == "density_difference")
            return true;
        int[] known = [.. Enumerable.Range(0, density.Grid.Count).Where(i => field is not null && float.IsFinite(field.Values[i]))];
        return known.Length > 0 && known.All(i => (density.Flags[i] & DensityFlags.NotAnchored) != 0);
    }

    /// <summary>The values without those that are differences only, where others are densities; NaN in their place.</summary>
    public static float[] Comparable(DensityResult density, float[] values) => IsDifference(density)
        ? values
        : [.. values.Zip(density.Flags, (value, flag) => (flag & DensityFlags.NotAnchored) != 0 ? float.NaN : value)];

    /// <summary>Share of the known places of which only a difference is known, 0 to 1.</summary>
    public static double DifferenceShare(DensityResult density)
    {
        int[] known = [.. Enumerable.Range(0, density.Grid.Count).Where(i => density.Fields.Count > 0 && float.IsFinite(density.Fields[0].Values[i]))];
        return known.Length == 0 ? 0 : known.Count(i => (density.Flags[i] & DensityFlags.NotAnchored) != 0) / (double)known.Length;
    }
}
