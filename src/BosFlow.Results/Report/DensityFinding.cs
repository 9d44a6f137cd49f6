using BosFlow.Density;
using BosFlow.Optics;
using BosFlow.Results.Maps;

namespace BosFlow.Results.Report;

/// <summary>The main figures of a density: its value where it differs most from the surroundings, and its extremes.</summary>
public sealed record DensityFinding
{
    /// <summary>Name of the field: density, density_difference where only differences to the mean are known, density_path where only the path integral is known.</summary>
    public required string Quantity { get; init; }

    /// <summary>Its unit in CF notation.</summary>
    public required string Unit { get; init; }

    /// <summary>Whether only differences to the field's mean are known.</summary>
    public required bool IsDifference { get; init; }

    /// <summary>Where it differs most from the surroundings: the place of the uncertainty budget where there is one; null where nothing was determined.</summary>
    public FieldPlace? Main { get; init; }

    /// <summary>Temperature at that place, K; NaN where none is given.</summary>
    public double TemperatureKelvin { get; init; } = double.NaN;

    /// <summary>Its standard uncertainty, K.</summary>
    public double SigmaTemperatureKelvin { get; init; } = double.NaN;

    /// <summary>Lowest value of the field; null where nothing was determined.</summary>
    public FieldPlace? Lowest { get; init; }

    /// <summary>Highest value of the field; null where nothing was determined.</summary>
    public FieldPlace? Highest { get; init; }

    /// <summary>The main figure in one line for a console, without full stop.</summary>
    public string Line => DensityWords.Line(this);

    /// <summary>The main figures of a density.</summary>
    /// <param name="density">The density; null where a run has none.</param>
    /// <returns>null where a run has none; without places where nothing was determined.</returns>
    public static DensityFinding? Of(DensityResult? density)
    {
        if (density is null)
            return null;
        if (density.Fields.Count == 0)
            return new DensityFinding { Quantity = "density", Unit = "kg m-3", IsDifference = false };
        ScalarField field = density.Fields[0];
        int[] nodes = Nodes(density, field);
        var finding = new DensityFinding
        {
            Quantity = field.Name,
            Unit = field.Unit,
            IsDifference = DensityView.IsDifference(density),
            Lowest = nodes.Length == 0 ? null : Place(field, nodes[0]),
            Highest = nodes.Length == 0 ? null : Place(field, nodes[^1]),
        };
        if (density.Budget is { } budget)
        {
            return finding with
            {
                Main = new FieldPlace(budget.X, budget.Y, budget.DensityKgM3, budget.SigmaDensityKgM3),
                TemperatureKelvin = budget.TemperatureKelvin,
                SigmaTemperatureKelvin = budget.SigmaTemperatureKelvin,
            };
        }

        return finding with { Main = Farthest(finding, field, nodes) };
    }

    // Places with a plain result, by value; all known ones where none is plain.
    private static int[] Nodes(DensityResult density, ScalarField field)
    {
        float[] values = DensityView.Comparable(density, field.Values);
        int[] known = [.. Enumerable.Range(0, values.Length).Where(i => float.IsFinite(values[i])).OrderBy(i => values[i])];
        int[] plain = [.. known.Where(i => (density.Flags[i] & ~DensityFlags.NotAnchored) == 0)];
        return plain.Length > 0 ? plain : known;
    }

    // Differences are counted from zero; of a density whose surroundings are not known here, from its median.
    private static FieldPlace? Farthest(DensityFinding finding, ScalarField field, int[] nodes)
    {
        if (finding.Lowest is not { } lowest || finding.Highest is not { } highest)
            return null;
        double middle = finding.IsDifference || finding.Quantity != "density" ? 0 : field.Values[nodes[nodes.Length / 2]];
        return middle - lowest.Value > highest.Value - middle ? lowest : highest;
    }

    private static FieldPlace Place(ScalarField field, int node) =>
        new(field.Grid.X(node % field.Grid.Columns), field.Grid.Y(node / field.Grid.Columns), field.Values[node], field.Sigma[node]);
}
