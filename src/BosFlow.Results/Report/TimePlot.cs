using BosFlow.Results.Fonts;
using ScottPlot;

namespace BosFlow.Results.Report;

/// <summary>Curves over time, for the report.</summary>
internal static class TimePlot
{
    private const int Width = 1100;
    private const int Height = 400;
    private static readonly string[] Colours = ["#1f5fa8", "#b4531a", "#3c7a3c"];

    /// <summary>Draws curves; a NaN leaves a gap.</summary>
    /// <returns>The bytes of a PNG.</returns>
    public static byte[] Render(string xLabel, double[] x, string yLabel, bool fromZero, IReadOnlyList<(string Name, double[] Values)> curves)
    {
        PlotFontResolver.Register();
        var plot = new Plot();
        plot.Font.Set(PlotFontResolver.Family);
        plot.Axes.Color(Color.FromHex("#1f2428"));
        plot.Grid.MajorLineColor = Color.FromHex("#e3e6e8");
        for (int i = 0; i < curves.Count; i++)
        {
            ScottPlot.Plottables.Scatter scatter = plot.Add.Scatter(x, curves[i].Values);
            scatter.Color = Color.FromHex(Colours[i % Colours.Length]);
            scatter.LineWidth = 1.8f;
            scatter.MarkerSize = x.Length <= 120 ? 5 : 0;
            scatter.MarkerShape = i == 0 ? MarkerShape.FilledCircle : MarkerShape.FilledSquare;
            scatter.LegendText = curves[i].Name;
        }

        plot.Axes.Bottom.Label.Text = xLabel;
        plot.Axes.Left.Label.Text = yLabel;
        foreach (IAxis axis in new IAxis[] { plot.Axes.Bottom, plot.Axes.Left })
        {
            axis.Label.Bold = false;
            axis.Label.FontSize = 18;
            axis.TickLabelStyle.FontSize = 15;
        }

        plot.Legend.FontSize = 15;
        plot.Legend.OutlineColor = Colors.Transparent;
        plot.Legend.ShadowColor = Colors.Transparent;
        plot.Legend.Orientation = Orientation.Horizontal;
        plot.ShowLegend(Edge.Top);
        SetLimits(plot, x, fromZero, [.. curves.SelectMany(c => c.Values).Where(double.IsFinite)]);
        return plot.GetImageBytes(Width, Height, ImageFormat.Png);
    }

    private static void SetLimits(Plot plot, double[] x, bool fromZero, double[] values)
    {
        double low = fromZero || values.Length == 0 ? 0 : values.Min();
        double high = values.Length == 0 ? 1 : values.Max();
        double room = high > low ? 0.08 * (high - low) : Math.Max(Math.Abs(high) * 0.1, 0.001);
        double sideways = x.Length > 1 && x[^1] > x[0] ? 0.02 * (x[^1] - x[0]) : 0.5;
        plot.Axes.SetLimits(x[0] - sideways, x[^1] + sideways, fromZero ? 0 : low - room, high + room);
    }
}
