using System.Globalization;
using System.Text.Json.Nodes;
using BosFlow.Validation;

namespace BosFlow.Cli.Scenes;

/// <summary>How far a run is from the truth, for people and for machines.</summary>
internal static class ComparisonTable
{
    /// <summary>The table: one column for each run.</summary>
    /// <param name="runs">Name and comparison of each run, at least one.</param>
    public static TextTable Of(IReadOnlyList<(string Name, TruthComparison Comparison)> runs)
    {
        List<IReadOnlyList<string>> rows =
        [
            Row("RMS error of u", runs, c => c.U, c => Number(c.RmsError, "0.0000", "px")),
            Row("RMS error of v", runs, c => c.V, c => Number(c.RmsError, "0.0000", "px")),
            Row("largest true displacement", runs, c => c.U, c => Number(c.Peak, "0.000", "px")),
            Row("RMS error of the density gradient, x", runs, c => c.DensityGradientPathX, c => Number(c.RmsError, "0.00000", "kg m-3")),
            Row("RMS error of the density gradient, y", runs, c => c.DensityGradientPathY, c => Number(c.RmsError, "0.00000", "kg m-3")),
            Row("largest true density gradient", runs, c => c.DensityGradientPathX, c => Number(c.Peak, "0.000", "kg m-3")),
            Row("RMS error of x over that peak", runs, c => c.DensityGradientPathX, c => Number(c.PercentOfPeak, "0.00", "%")),
            Row("RMS error of y over that peak", runs, c => c.DensityGradientPathY, c => Number(c.PercentOfPeak, "0.00", "%")),
            Row("slope of measured on true, x", runs, c => c.DensityGradientPathX, c => Number(c.Slope, "0.0000", string.Empty)),
            Row("slope of measured on true, y", runs, c => c.DensityGradientPathY, c => Number(c.Slope, "0.0000", string.Empty)),
            Row("RMS error of the density", runs, c => c.Density, c => Number(c.RmsError, "0.00000", "kg m-3")),
            Row("largest true difference of density to the surroundings", runs, c => c.Density, c => Number(c.Peak, "0.000", "kg m-3")),
            Row("RMS error of the density over that", runs, c => c.Density, c => Number(c.PercentOfPeak, "0.00", "%")),
            Row("RMS error of the temperature", runs, c => c.Temperature, c => Number(c.RmsError, "0.00", "K")),
            Row("largest true difference of temperature to the surroundings", runs, c => c.Temperature, c => Number(c.Peak, "0.0", "K")),
            Row("errors of u within 1 sigma (0.68 expected)", runs, c => c.U, c => Number(c.CoverageOneSigma, "0.00", string.Empty)),
            Row("errors of u within 1.96 sigma (0.95 expected)", runs, c => c.U, c => Number(c.Coverage95, "0.00", string.Empty)),
            Row("vectors compared", runs, c => c.U, c => c.Count.ToString(CultureInfo.InvariantCulture)),
        ];
        return new TextTable(["mean field against the exact truth", .. runs.Select(run => run.Name)], rows);
    }

    /// <summary>The same for machines.</summary>
    /// <param name="comparison">The comparison.</param>
    public static JsonObject ToJson(TruthComparison comparison)
    {
        var json = new JsonObject();
        Add(json, "u", "px", comparison.U);
        Add(json, "v", "px", comparison.V);
        Add(json, "density_gradient_path_x", "kg m-3", comparison.DensityGradientPathX);
        Add(json, "density_gradient_path_y", "kg m-3", comparison.DensityGradientPathY);
        Add(json, "density_difference", "kg m-3", comparison.Density);
        Add(json, "temperature_difference", "K", comparison.Temperature);
        return json;
    }

    private static void Add(JsonObject json, string name, string unit, ComponentComparison? component)
    {
        if (component is null)
            return;
        json[name] = new JsonObject
        {
            ["unit"] = unit,
            ["rms_error"] = component.RmsError,
            ["peak"] = component.Peak,
            ["rms_error_percent_of_peak"] = component.PercentOfPeak,
            ["slope"] = component.Slope,
            ["coverage_1_sigma"] = component.CoverageOneSigma,
            ["coverage_1_96_sigma"] = component.Coverage95,
            ["vectors"] = component.Count,
        };
    }

    private static List<string> Row(
        string title, IReadOnlyList<(string Name, TruthComparison Comparison)> runs, Func<TruthComparison, ComponentComparison?> component, Func<ComponentComparison, string> cell) =>
        [title, .. runs.Select(run => component(run.Comparison) is { } found ? cell(found) : "-")];

    private static string Number(double value, string format, string unit) =>
        (value.ToString(format, CultureInfo.InvariantCulture) + " " + unit).TrimEnd();
}
