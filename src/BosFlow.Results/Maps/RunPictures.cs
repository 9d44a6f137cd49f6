using System.Globalization;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Results.Plots;
using BosFlow.Statistics;

namespace BosFlow.Results.Maps;

/// <summary>All pictures of a run, from its summary alone.</summary>
public static class RunPictures
{
    /// <summary>Draws them in the order in which they are read best.</summary>
    /// <param name="summary">What the run gave.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    public static IReadOnlyList<RunPicture> Of(RunSummary summary, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(summary);
        List<RunPicture> pictures = [];
        foreach (Func<RunPicture> draw in Drawings(summary))
        {
            cancellationToken.ThrowIfCancellationRequested();
            pictures.Add(draw());
        }

        return pictures;
    }

    private static IEnumerable<Func<RunPicture>> Drawings(RunSummary summary)
    {
        foreach (ScalarField field in summary.DerivedFields.Where(f => f.Name.StartsWith("density_gradient", StringComparison.Ordinal)))
            yield return () => Gradient(summary, field);
        yield return () => KnifeEdge(summary);
        foreach (Func<RunPicture> drawing in DensityMaps.Drawings(summary).Concat(DensityPlots.Drawings(summary)))
            yield return drawing;
        foreach (Func<RunSummary, RunPicture> draw in new[] { Horizontal, Vertical, Magnitude, Quiver, Uncertainty }.Concat(OverTime(summary)))
            yield return () => draw(summary);
    }

    private static IEnumerable<Func<RunSummary, RunPicture>> OverTime(RunSummary summary) =>
        summary.Statistics.Count.Any(count => count > 1) ? [Fluctuation] : [];

    private static RunPicture Gradient(RunSummary summary, ScalarField field)
    {
        bool horizontal = field.Name.EndsWith("_x", StringComparison.Ordinal);
        bool path = field.Name.Contains("_path_", StringComparison.Ordinal);
        string direction = horizontal ? "to the right" : "downwards";
        string title = (path ? "Density gradient, integrated along the line of sight: " : "Density gradient, mean along the line of sight: ") + (horizontal ? "x component" : "y component");
        string what = path
            ? $"Mean over the run of the integral of d\u03c1/d{(horizontal ? 'x' : 'y')} along the line of sight"
            : $"Mean over the run of d\u03c1/d{(horizontal ? 'x' : 'y')}, averaged over the path length that the case gives";
        return Map(
            summary, field.Name, title, path ? (horizontal ? "∫ ∂ρ/∂x dz" : "∫ ∂ρ/∂y dz") : (horizontal ? "∂ρ/∂x" : "∂ρ/∂y"), field.Unit, field.Values, ColourMap.Signed, $"Positive: the gas becomes denser {direction}.",
            $"{what}, in {UnitText.Readable(field.Unit)}. Positive: the gas becomes denser {direction}. From the displacement by the Gladstone-Dale relation.") with { Topic = PictureTopic.Gradient };
    }

    private static RunPicture KnifeEdge(RunSummary summary)
    {
        double angle = summary.Case.KnifeEdgeDegrees;
        ScalarField? x = summary.DerivedFields.FirstOrDefault(f => f.Name == "density_gradient_path_x");
        ScalarField? y = summary.DerivedFields.FirstOrDefault(f => f.Name == "density_gradient_path_y");
        string degrees = angle.ToString("0.###", CultureInfo.InvariantCulture);
        if (x is null || y is null)
        {
            // The pattern moves against the deflection: minus the displacement keeps the sense of light and dark.
            float[] opposite = KnifeEdgeView.Component(summary.Statistics.MeanU, summary.Statistics.MeanV, angle);
            for (int i = 0; i < opposite.Length; i++)
                opposite[i] = -opposite[i];
            return Map(
                summary, "knife_edge", $"Knife-edge view at {degrees}\u00b0: displacement against the direction", "\u2212displacement", "px", opposite, ColourMap.KnifeEdge, "Bright: the gas becomes denser in this direction.",
                $"Minus the mean displacement along the direction {degrees}\u00b0 (counter-clockwise from the right), in px. Bright: the gas becomes denser in this direction.");
        }

        return Map(
            summary, "knife_edge", $"Knife-edge view at {degrees}\u00b0: path-integrated density gradient", "∫ ∂ρ/∂s dz", x.Unit,
            KnifeEdgeView.Component(x.Values, y.Values, angle), ColourMap.KnifeEdge, "Bright: the gas becomes denser in this direction.",
            $"Path-integrated density gradient along the direction {degrees}\u00b0 (counter-clockwise from the right, as seen on the picture), in {UnitText.Readable(x.Unit)}. Bright: the gas becomes denser in this direction; mid-grey: no gradient.") with { Topic = PictureTopic.Gradient };
    }

    private static RunPicture Horizontal(RunSummary summary) => Map(
        summary, "displacement_x", "Mean displacement of the pattern, u", "u", "px", summary.Statistics.MeanU, ColourMap.Signed, "Positive: the pattern is seen displaced to the right.",
        "Mean displacement in x, in px of the reference picture, the motion of camera and board taken out. Positive: the pattern is seen displaced to the right.");

    private static RunPicture Vertical(RunSummary summary) => Map(
        summary, "displacement_y", "Mean displacement of the pattern, v", "v", "px", summary.Statistics.MeanV, ColourMap.Signed, "Positive: the pattern is seen displaced downwards.",
        "Mean displacement in y, in px of the reference picture. Positive: the pattern is seen displaced downwards.");

    private static RunPicture Magnitude(RunSummary summary) => Map(
        summary, "displacement_magnitude", "Magnitude of the mean displacement", "|(u, v)|", "px", Length(summary.Statistics.MeanU, summary.Statistics.MeanV), ColourMap.Magnitude, string.Empty,
        "Length of the mean displacement vector, in px. Noise makes it positive everywhere: compare with the noise floor.");

    private static RunPicture Uncertainty(RunSummary summary) => Map(
        summary, "displacement_sigma", "Standard uncertainty of the mean displacement", "\u03c3", "px", Length(summary.Statistics.SigmaMeanU, summary.Statistics.SigmaMeanV), ColourMap.Magnitude, string.Empty,
        "Root of the sum of squares of the standard uncertainties (one sigma) of mean u and mean v, in px.");

    private static RunPicture Fluctuation(RunSummary summary) => Map(
        summary, "displacement_rms", "Fluctuation of the displacement over time", "RMS", "px", Length(summary.Statistics.RmsU, summary.Statistics.RmsV), ColourMap.Magnitude, string.Empty,
        "Root of the sum of squares of the standard deviations of u and v over time, in px. It holds the noise of single frames as well as the flow's own fluctuation.");

    private static RunPicture Quiver(RunSummary summary)
    {
        const string title = "Mean displacement of the pattern, over the reference picture";
        byte[] png = QuiverRenderer.Render(new QuiverSpecification
        {
            Title = title,
            Picture = summary.Reference.Image,
            Grid = summary.Statistics.Grid,
            U = summary.Statistics.MeanU,
            V = summary.Statistics.MeanV,
            Flags = summary.Statistics.PrevailingFlags,
            FlowMillimetresPerPixel = Millimetres(summary),
        });
        return new RunPicture("quiver.png", title, "Mean displacement vectors, enlarged, on the faded reference picture. The pattern is displaced away from where the gas is denser along each arrow.", png);
    }

    private static RunPicture Map(RunSummary summary, string name, string title, string symbol, string unit, float[] values, ColourMap colours, string note, string caption)
    {
        FieldStatistics statistics = summary.Statistics;
        byte[] png = MapRenderer.Render(new MapSpecification
        {
            Title = title,
            Note = note,
            Symbol = symbol,
            Unit = unit,
            Grid = statistics.Grid,
            Values = values,
            Cells = CellStates.Of(statistics.PrevailingFlags),
            Width = summary.Reference.Image.Width,
            Height = summary.Reference.Image.Height,
            Colours = colours,
            FlowMillimetresPerPixel = Millimetres(summary),
        });
        return new RunPicture($"{name}.png", title, caption, png);
    }

    internal static double? Millimetres(RunSummary summary) => summary.Scale?.FlowMetresPerPixel * 1000;

    private static float[] Length(float[] x, float[] y) => [.. x.Zip(y, (a, b) => MathF.Sqrt((a * a) + (b * b)))];
}
