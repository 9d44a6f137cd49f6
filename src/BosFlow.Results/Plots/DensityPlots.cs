using BosFlow.Density;
using BosFlow.Pipeline;
using BosFlow.Results.Maps;

namespace BosFlow.Results.Plots;

/// <summary>The curves of density and temperature: profiles, along the axis, and where the uncertainty comes from.</summary>
internal static class DensityPlots
{
    private const string Radius = "distance from the axis (mm)";
    private const string Axial = "distance along the axis (mm)";
    private const string DensityLabel = "density (kg m⁻³)";
    private const string TemperatureLabel = "temperature (K)";

    public static IEnumerable<Func<RunPicture>> Drawings(RunSummary summary)
    {
        if (summary.Density is not { } density)
            yield break;
        IReadOnlyList<RadialProfile> stations = StationChoice.Of(density.Profiles);
        bool withTemperature = density.Profiles.Any(p => p.Temperature.Any(double.IsFinite));
        if (stations.Count > 0)
        {
            yield return () => Profiles("density_profiles", "Density over the distance from the axis", DensityLabel, stations, p => (p.Density, p.SigmaDensity));
            if (withTemperature)
                yield return () => Profiles("temperature_profiles", "Temperature over the distance from the axis", TemperatureLabel, stations, p => (p.Temperature, p.SigmaTemperature));
            yield return () => Sides(stations);
        }

        // One station is a point, no curve.
        if (density.Profiles.Count(p => p.Density.Length > 0 && double.IsFinite(p.Density[0])) > 1)
        {
            yield return () => Along("density_axis", "Density along the axis", DensityLabel, density.Profiles, p => (p.Density[0], p.SigmaDensity[0]));
            if (withTemperature)
                yield return () => Along("temperature_axis", "Temperature along the axis", TemperatureLabel, density.Profiles, p => (p.Temperature[0], p.SigmaTemperature[0]));
        }

        if (density.Budget is { Lines.Count: > 0 } budget)
            yield return () => Picture("uncertainty_budget", "Where the uncertainty of the density comes from", "Contribution of each source to the standard uncertainty of the density at the place of the budget, in kg m⁻³, and its share of the variance. Sources that are not stated contribute nothing to the total, though they may in truth.", BudgetPlot.Render(budget));
    }

    private static RunPicture Profiles(string name, string title, string label, IReadOnlyList<RadialProfile> stations, Func<RadialProfile, (double[] Values, double[] Sigma)> quantity)
    {
        PlotCurve[] curves = [.. stations.Select((p, i) => new PlotCurve($"at {AxisLines.Label(p)}", Millimetres(p), quantity(p).Values) { Band = PlotBand.OfSigma(quantity(p).Values, quantity(p).Sigma), Colour = i })];
        return Picture(
            name, title, $"{title} in mm, at {(stations.Count == 1 ? "the station" : $"{stations.Count} stations")} marked on the maps (positions along the axis). Bands: one standard uncertainty to either side. All stations are in profiles.csv.",
            CurvePlot.Render(new PlotFrame(Radius, label) { Height = 560 }, curves));
    }

    private static RunPicture Sides(IReadOnlyList<RadialProfile> stations)
    {
        int columns = Math.Min(2, stations.Count);
        var panels = stations.Select((p, i) =>
        {
            var frame = new PlotFrame(Radius, DensityLabel) { Title = $"at {AxisLines.Label(p)} along the axis", Width = 1100 / columns, Height = 420 };
            IReadOnlyList<PlotCurve> curves =
            [
                new("both", Millimetres(p), p.Density) { Band = PlotBand.OfSigma(p.Density, p.SigmaDensity), Weight = CurveWeight.Plain },
                new("left", Millimetres(p), p.DensityLeft) { Colour = 1, Weight = CurveWeight.Dashed },
                new("right", Millimetres(p), p.DensityRight) { Colour = 2, Weight = CurveWeight.Dotted },
            ];
            return (frame, curves);
        }).ToArray();
        return Picture(
            "density_sides", "Density from the left and from the right half", "Density from both halves together with its band of one standard uncertainty, and from each half alone (left and right when looking along the axis). In a round flow the two agree within their noise, about 1.4 times the band.",
            CurvePlot.Panels(panels, columns));
    }

    private static RunPicture Along(string name, string title, string label, IReadOnlyList<RadialProfile> profiles, Func<RadialProfile, (double Value, double Sigma)> quantity)
    {
        RadialProfile[] ordered = [.. profiles.Where(p => p.Density.Length > 0).OrderBy(p => p.AxialMetres)];
        double[] values = [.. ordered.Select(p => quantity(p).Value)];
        var curve = new PlotCurve(string.Empty, [.. ordered.Select(p => p.AxialMetres * 1000)], values) { Band = PlotBand.OfSigma(values, [.. ordered.Select(p => quantity(p).Sigma)]) };
        return Picture(
            name, title, $"{title}, over the distance from its start in the plane of the flow, in mm. Band: one standard uncertainty to either side; on the axis itself noise is largest.",
            CurvePlot.Render(new PlotFrame(Axial, label) { Height = 460 }, [curve]));
    }

    private static double[] Millimetres(RadialProfile profile) => [.. profile.RadiusMetres.Select(r => r * 1000)];

    private static RunPicture Picture(string name, string title, string caption, byte[] png) => new($"{name}.png", title, caption, png) { Topic = PictureTopic.Density };
}
