using BosFlow.Density;
using BosFlow.Optics;

namespace BosFlow.Validation;

/// <summary>A field of a density result against its truth, node by node.</summary>
internal static class FieldComparison
{
    /// <summary>Errors of a field at the nodes that a rule takes; nodes with a flag are left out.</summary>
    /// <param name="density">The result.</param>
    /// <param name="name">Name of the field.</param>
    /// <param name="truth">True values, one for each node.</param>
    /// <param name="takes">Which nodes, by their place in px; null = all.</param>
    public static ErrorStatistics Of(DensityResult density, string name, float[] truth, Func<double, double, bool>? takes = null)
    {
        ScalarField field = Field(density, name);
        var errors = new ErrorStatistics();
        for (int node = 0; node < truth.Length; node++)
        {
            if (takes is not null && !takes(density.Grid.X(node % density.Grid.Columns), density.Grid.Y(node / density.Grid.Columns)))
                continue;
            bool isPlain = density.Flags[node] == DensityFlags.None;
            errors.Add(isPlain ? field.Values[node] : double.NaN, truth[node], field.Sigma[node]);
        }

        return errors;
    }

    /// <summary>A field of the result by its name.</summary>
    /// <param name="density">The result.</param>
    /// <param name="name">Name of the field.</param>
    /// <exception cref="InvalidOperationException">The run gave no such field.</exception>
    public static ScalarField Field(DensityResult density, string name) =>
        density.Fields.FirstOrDefault(field => field.Name == name)
        ?? throw new InvalidOperationException($"The run gave no {name}: {string.Join(" ", density.Warnings)}");
}
