using BosFlow.Statistics;

namespace BosFlow.Optics;

/// <summary>Turns the mean displacement into deflection, index gradient and density gradient.</summary>
public static class DerivedFields
{
    /// <summary>Fields of every quantity that the scale allows, for the mean displacement.</summary>
    /// <param name="statistics">Mean displacement, px, with its standard uncertainty.</param>
    /// <param name="scale">Factors from px to each quantity.</param>
    /// <returns>
    /// deflection_x, _y (rad); index_gradient_path_x, _y (1); density_gradient_path_x, _y (kg m-3); and, where the path length is known,
    /// density_gradient_x, _y (kg m-4). A node without a mean displacement is NaN.
    /// </returns>
    /// <remarks>
    /// Sigma is the displacement's part alone, propagated linearly: |factor| times the standard uncertainty of the mean displacement. The
    /// uncertainty of distances, scale and Gladstone-Dale coefficient is common to all nodes and is not in it.
    /// </remarks>
    public static IReadOnlyList<ScalarField> From(FieldStatistics statistics, OpticalScale scale)
    {
        ArgumentNullException.ThrowIfNull(statistics);
        ArgumentNullException.ThrowIfNull(scale);
        var fields = new List<ScalarField>();
        AddPair(fields, statistics, "deflection", "Deflection angle", "rad", scale.DeflectionPerPixel);
        AddPair(fields, statistics, "index_gradient_path", "Path-integrated refractive-index gradient", "1", scale.IndexGradientPathPerPixel);
        AddPair(fields, statistics, "density_gradient_path", "Path-integrated density gradient", "kg m-3", scale.DensityGradientPathPerPixel);
        if (scale.DensityGradientPerPixel is double perPixel)
            AddPair(fields, statistics, "density_gradient", "Density gradient, mean over the path", "kg m-4", perPixel);
        return fields;
    }

    private static void AddPair(List<ScalarField> fields, FieldStatistics statistics, string name, string title, string unit, double perPixel)
    {
        fields.Add(new ScalarField($"{name}_x", $"{title}, x", unit, statistics.Grid, Scaled(statistics.MeanU, perPixel), Scaled(statistics.SigmaMeanU, Math.Abs(perPixel))));
        fields.Add(new ScalarField($"{name}_y", $"{title}, y", unit, statistics.Grid, Scaled(statistics.MeanV, perPixel), Scaled(statistics.SigmaMeanV, Math.Abs(perPixel))));
    }

    private static float[] Scaled(float[] values, double factor)
    {
        float[] scaled = new float[values.Length];
        for (int i = 0; i < values.Length; i++)
            scaled[i] = (float)(values[i] * factor);
        return scaled;
    }
}
