using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>Turns states at the nodes into the fields of the result.</summary>
internal static class ResultFields
{
    /// <summary>A result without a field.</summary>
    /// <param name="request">What was asked.</param>
    /// <param name="reason">Why nothing can be given, and what to do, for the user.</param>
    public static DensityResult Nothing(DensityRequest request, string reason) => new()
    {
        Shape = request.Flow.Shape,
        Grid = request.Mean.Grid,
        Fields = [],
        SigmaRandom = [],
        Flags = [.. Enumerable.Repeat(DensityFlags.NotMeasured, request.Mean.Grid.Count)],
        Warnings = [reason],
    };

    /// <summary>Density, refractive index and, where it has a meaning, temperature.</summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="states">States with their uncertainties.</param>
    /// <param name="conversion">The conversion of the states.</param>
    /// <param name="unit">Index excess at the nodes.</param>
    /// <param name="isAnchored">Whether any part of the field is known absolutely; else the first field is a difference.</param>
    public static IReadOnlyList<ScalarField> Of(NodeGrid grid, StateField states, DensityConversion conversion, UnitField unit, bool isAnchored)
    {
        int count = grid.Count;
        float[] density = new float[count], sigmaDensity = new float[count], index = new float[count], sigmaIndex = new float[count], temperature = new float[count], sigmaTemperature = new float[count];
        for (int node = 0; node < count; node++)
        {
            density[node] = (float)states.States[node].DensityKgM3;
            sigmaDensity[node] = (float)states.SigmaDensity(node);
            index[node] = (float)(conversion.AmbientIndex + unit.Values[node]);
            sigmaIndex[node] = (float)unit.Sigma[node];
            bool isAbsolute = !unit.Flags[node].HasFlag(DensityFlags.NotAnchored);
            temperature[node] = isAbsolute ? (float)states.States[node].TemperatureKelvin : float.NaN;
            sigmaTemperature[node] = isAbsolute ? (float)states.SigmaTemperature(node) : float.NaN;
        }

        if (!isAnchored)
        {
            float[] difference = [.. density.Select(value => value - (float)conversion.SurroundingDensity)];
            return [new ScalarField("density_difference", "Density, difference to the weighted mean of its part of the field", "kg m-3", grid, difference, sigmaDensity)];
        }

        var fields = new List<ScalarField>
        {
            new("density", "Density", "kg m-3", grid, density, sigmaDensity),
            new("refractive_index", "Refractive index", "1", grid, index, sigmaIndex),
        };
        if (conversion.HasTemperature)
            fields.Add(new ScalarField("temperature", "Temperature", "K", grid, temperature, sigmaTemperature));
        return fields;
    }

    /// <summary>Flags of the field with those that its states add.</summary>
    public static DensityFlags[] Flags(UnitField unit, StateField states) =>
        [.. unit.Flags.Select((flag, node) => states.States[node].DensityKgM3 <= 0 ? flag | DensityFlags.NotPositive : flag)];

    /// <summary>
    /// The place of the budget: where the index differs most from the surroundings, among places without a flag; -1 where there is none. What counts is the difference less
    /// two sigmas, or noise would choose the place.
    /// </summary>
    public static int BudgetPlace(UnitField unit)
    {
        int place = -1;
        double largest = double.NegativeInfinity;
        for (int node = 0; node < unit.Values.Length; node++)
        {
            bool isCandidate = (unit.Flags[node] & ~DensityFlags.Asymmetric) == DensityFlags.None && double.IsFinite(unit.Values[node]);
            double certain = Math.Abs(unit.Values[node]) - (2 * unit.Sigma[node]);
            if (isCandidate && certain > largest)
                (place, largest) = (node, certain);
        }

        return place;
    }
}
