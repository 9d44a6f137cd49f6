using System.Globalization;
using BosFlow.Density;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Results.Plots;

namespace BosFlow.Results.Maps;

/// <summary>The maps of density and temperature.</summary>
internal static class DensityMaps
{
    public static IEnumerable<Func<RunPicture>> Drawings(RunSummary summary)
    {
        if (summary.Density is not { } density)
            yield break;
        foreach (ScalarField field in density.Fields)
        {
            // A picture without a single value says less than the sentence of the report.
            if (Words(density, field.Name) is not { } words || !field.Values.Any(float.IsFinite))
                continue;
            yield return () => Map(summary, density, field.Name, words, field.Unit, DensityView.Comparable(density, field.Values));
            yield return () => Map(summary, density, $"{field.Name}_sigma", Sigma(words), field.Unit, DensityView.Comparable(density, field.Sigma));
        }

        if (density.NormalisedResidual.Any(float.IsFinite))
            yield return () => Map(summary, density, "integration_residual", Residual, "1", density.NormalisedResidual);
    }

    private static readonly MapWords Residual = new(
        "Residual of the integration, over its standard uncertainty", "residual / \u03c3", MapScale.FromZero, "About 1 is what noise alone gives.",
        "What the integrated density cannot explain of the measured gradients, in units of its standard uncertainty. About 1: the data agree with themselves. Patches well above 1: gradients there are no slopes of one density (a rotation left in the field, a wrong vector, a shock), and their uncertainty is larger than stated.");

    private static MapWords? Words(DensityResult density, string field)
    {
        bool difference = DensityView.IsDifference(density);
        string where = density.Shape switch
        {
            FlowShape.Axisymmetric => "in the section through the axis",
            FlowShape.Planar => "mean along the line of sight",
            _ => "along the line of sight",
        };
        return field switch
        {
            "density_difference" => new(
                $"Density difference to the mean of the field, {where}", "\u0394\u03c1", MapScale.Signed, "Only differences are known: no place of known density was reached.",
                "Density minus its mean over the connected field, in kg m⁻³. This is not a density: the case names no place of known density that the measurement reaches."),
            "density" => new(
                $"Density, {where}", "\u03c1", MapScale.Density, string.Empty,
                density.Shape == FlowShape.Axisymmetric
                    ? "Density in the plane through the axis, parallel to the picture, in kg m⁻³, from the inversion of the measured deflection."
                    : "Density in kg m⁻³, the same over the given path length along each line of sight, from the integration of the measured gradients."),
            "temperature" => new(
                $"Temperature, {where}", "T", MapScale.Temperature, string.Empty,
                "Temperature in K, from the density by the ideal gas at the pressure and the molar mass of the settings. Where pressure or composition differ from them, it is wrong by the same factor."),
            "density_path" => new(
                "Density difference to the surroundings, integrated along the line of sight", "∫ \u0394\u03c1 dz", MapScale.Signed, difference ? "Only differences to the mean of the field are known." : "Negative: less gas than in the undisturbed surroundings.",
                $"Integral along the line of sight of the density minus that of the {(difference ? "mean of the field: no undisturbed place was given or reached" : "surroundings")}, in kg m⁻²."),
            _ => null,
        };
    }

    private static MapWords Sigma(MapWords of) => new(
        $"Standard uncertainty of the {char.ToLowerInvariant(of.Title[0])}{of.Title[1..]}", $"\u03c3({of.Symbol})", MapScale.FromZero, string.Empty,
        "Standard uncertainty (one sigma): noise of the measurement and every input whose uncertainty the case states or a source gives. Inputs not stated are missing in it; the budget lists them.");

    private static RunPicture Map(RunSummary summary, DensityResult density, string name, MapWords words, string unit, float[] values)
    {
        (ColourMap colours, ColourRange range) = words.Scale switch
        {
            MapScale.Density => (ColourMap.Density, ColourRange.Between(values)),
            MapScale.Temperature => (ColourMap.Temperature, ColourRange.Between(values)),
            MapScale.Signed => (ColourMap.Signed, ColourRange.Automatic(values, signed: true)),
            _ => (ColourMap.Magnitude, ColourRange.Automatic(values, signed: false)),
        };
        byte[] png = MapRenderer.Render(new MapSpecification
        {
            Title = words.Title,
            Note = Notes(density, words.Note),
            Symbol = words.Symbol,
            Unit = unit,
            Grid = density.Grid,
            Values = values,
            Cells = CellStates.Of(density.Flags, summary.Statistics.PrevailingFlags),
            MissingText = "not determined",
            MarkText = "bridged over a gap, sides contradict each other, or not positive",
            Lines = AxisLines.Of(density, summary.Reference.Image.Width, summary.Reference.Image.Height),
            Width = summary.Reference.Image.Width,
            Height = summary.Reference.Image.Height,
            Colours = colours,
            Range = range,
            FlowMillimetresPerPixel = RunPictures.Millimetres(summary),
        });
        return new RunPicture($"{name}.png", words.Title, words.Caption, png) { Topic = PictureTopic.Density };
    }

    private static string Notes(DensityResult density, string note)
    {
        double share = DensityView.IsDifference(density) ? 0 : DensityView.DifferenceShare(density);
        string[] notes =
        [
            note,
            share == 0 ? string.Empty : $"In {(100 * share).ToString("0.#", CultureInfo.InvariantCulture)} % of the field only differences are known: not drawn, but in summary.nc.",
            density.Axis is null ? string.Empty : StationChoice.Of(density.Profiles).Count == 0 ? "Long line: the axis." : "Long line: the axis. Short lines: stations of the plotted profiles, with their position along the axis.",
        ];
        return string.Join(' ', notes.Where(n => n.Length > 0));
    }
}
