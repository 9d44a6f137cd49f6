using BosFlow.Results.Fonts;
using BosFlow.Results.Maps;
using ScottPlot;
using SkiaSharp;

namespace BosFlow.Results.Plots;

/// <summary>Curves with bands of uncertainty. The same curves give the same bytes.</summary>
internal static class CurvePlot
{
    // Told apart by lightness too; order of use.
    private static readonly string[] Colours = ["#1f5fa8", "#b4531a", "#3c7a3c", "#7a3c8c", "#5c5c5c"];

    private static readonly MarkerShape[] Markers = [MarkerShape.FilledCircle, MarkerShape.FilledSquare, MarkerShape.FilledDiamond, MarkerShape.FilledTriangleUp, MarkerShape.FilledTriangleDown];

    /// <summary>Draws curves in one frame.</summary>
    /// <returns>The bytes of a PNG.</returns>
    public static byte[] Render(PlotFrame frame, IReadOnlyList<PlotCurve> curves) => Bytes(frame, curves, PlotLimits.Of(curves, frame.FromZero));

    /// <summary>Draws several frames of equal size side by side and below each other, all with the same limits.</summary>
    /// <returns>The bytes of a PNG.</returns>
    public static byte[] Panels(IReadOnlyList<(PlotFrame Frame, IReadOnlyList<PlotCurve> Curves)> panels, int columns)
    {
        PlotFrame first = panels[0].Frame;
        int rows = (panels.Count + columns - 1) / columns;
        AxisLimits limits = PlotLimits.Of([.. panels.SelectMany(p => p.Curves)], first.FromZero);
        return Png.Draw(first.Width * Math.Min(columns, panels.Count), first.Height * rows, ink =>
        {
            for (int i = 0; i < panels.Count; i++)
            {
                // By way of its bytes: the library clears all of a canvas that it draws on.
                using SKBitmap panel = SKBitmap.Decode(Bytes(panels[i].Frame, panels[i].Curves, limits));
                ink.Canvas.DrawBitmap(panel, i % columns * first.Width, i / columns * first.Height);
            }
        });
    }

    private static byte[] Bytes(PlotFrame frame, IReadOnlyList<PlotCurve> curves, AxisLimits limits)
    {
        Plot plot = Drawn(frame, curves);
        plot.Axes.SetLimits(limits);
        return plot.GetImageBytes(frame.Width, frame.Height, ImageFormat.Png);
    }

    private static Plot Drawn(PlotFrame frame, IReadOnlyList<PlotCurve> curves)
    {
        PlotFontResolver.Register();
        var plot = new Plot();
        plot.Font.Set(PlotFontResolver.Family);
        plot.Axes.Color(Color.FromHex("#1f2428"));
        plot.Grid.MajorLineColor = Color.FromHex("#e3e6e8");
        foreach (PlotCurve curve in curves)
            AddBand(plot, curve);
        foreach (PlotCurve curve in curves)
            AddCurve(plot, curve);
        AddLabels(plot, frame);
        if (curves.Count(c => c.Name.Length > 0) > 1)
            AddLegend(plot);
        return plot;
    }

    private static void AddCurve(Plot plot, PlotCurve curve)
    {
        ScottPlot.Plottables.Scatter scatter = plot.Add.Scatter(curve.X, curve.Y);
        bool main = curve.Weight == CurveWeight.Main;
        scatter.Color = ColourOf(curve);
        scatter.LineWidth = curve.Weight is CurveWeight.Main or CurveWeight.Plain ? 1.8f : 1.4f;
        scatter.LinePattern = curve.Weight switch { CurveWeight.Dashed => LinePattern.Dashed, CurveWeight.Dotted => LinePattern.Dotted, _ => LinePattern.Solid };
        scatter.MarkerSize = main && curve.X.Length <= 60 ? 5 : 0;
        scatter.MarkerShape = Markers[curve.Colour % Markers.Length];
        scatter.LegendText = curve.Name;
    }

    // A band needs neighbours: each unbroken part is a shape of its own.
    private static void AddBand(Plot plot, PlotCurve curve)
    {
        if (curve.Band is not { } edges)
            return;
        for (int from = 0; from < curve.X.Length;)
        {
            int to = from;
            while (to < curve.X.Length && double.IsFinite(edges.Low[to]) && double.IsFinite(edges.High[to]))
                to++;
            if (to - from > 1)
            {
                ScottPlot.Plottables.FillY band = plot.Add.FillY(curve.X[from..to], edges.Low[from..to], edges.High[from..to]);
                band.FillColor = ColourOf(curve).WithAlpha(0.18);
                band.LineWidth = 0;
                band.MarkerSize = 0;
            }

            from = to + 1;
        }
    }

    private static void AddLabels(Plot plot, PlotFrame frame)
    {
        plot.Axes.Bottom.Label.Text = frame.XLabel;
        plot.Axes.Left.Label.Text = frame.YLabel;
        foreach (IAxis axis in new IAxis[] { plot.Axes.Bottom, plot.Axes.Left })
        {
            axis.Label.Bold = false;
            axis.Label.FontSize = 18;
            axis.TickLabelStyle.FontSize = 15;
        }

        if (frame.Title.Length == 0)
            return;
        plot.Title(frame.Title, 17);
        plot.Axes.Title.Label.Bold = false;
    }

    private static void AddLegend(Plot plot)
    {
        plot.Legend.FontSize = 15;
        plot.Legend.OutlineColor = Colors.Transparent;
        plot.Legend.ShadowColor = Colors.Transparent;
        plot.Legend.Orientation = Orientation.Horizontal;
        plot.ShowLegend(Edge.Top);
    }

    private static Color ColourOf(PlotCurve curve) => Color.FromHex(Colours[curve.Colour % Colours.Length]);
}
