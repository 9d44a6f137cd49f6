using ScottPlot;

namespace BosFlow.Results.Plots;

/// <summary>Limits that show every curve, and its band as far as it is not wild.</summary>
internal static class PlotLimits
{
    public static AxisLimits Of(IReadOnlyList<PlotCurve> curves, bool fromZero)
    {
        (double left, double right) = Span(curves.SelectMany(c => c.X));
        (double low, double high) = Span(curves.SelectMany(c => c.Y.Concat(c.Band is { IsWhole: true } ? Edges(c) : [])));
        // A band may widen the picture to three times the curves' own height, so that a place that is hardly known does not flatten the rest.
        double[] bands = [.. curves.SelectMany(Edges).Where(double.IsFinite)];
        if (bands.Length > 0)
        {
            double height = high - low;
            low = Math.Min(low, Math.Max(bands.Min(), low - height));
            high = Math.Max(high, Math.Min(bands.Max(), high + height));
        }

        low = fromZero ? Math.Min(0, low) : low;
        double room = high > low ? 0.08 * (high - low) : Math.Max(Math.Abs(high) * 0.1, 0.001);
        double sideways = right > left ? 0.02 * (right - left) : 0.5;
        return new AxisLimits(left - sideways, right + sideways, fromZero && low == 0 ? 0 : low - room, high + room);
    }

    private static IEnumerable<double> Edges(PlotCurve curve) => curve.Band is { } band ? band.Low.Concat(band.High) : [];

    private static (double Low, double High) Span(IEnumerable<double> values)
    {
        double[] known = [.. values.Where(double.IsFinite)];
        return known.Length == 0 ? (0, 1) : (known.Min(), known.Max());
    }
}
