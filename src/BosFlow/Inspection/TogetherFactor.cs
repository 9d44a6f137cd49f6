using BosFlow.Camera;

namespace BosFlow.Inspection;

/// <summary>How much larger an uncertainty is because neighbouring points miss together: a bent board, a lens's higher terms.</summary>
/// <remarks>
/// The places are gathered in squares. Were all misses independent, n times the squared mean miss of a square would be the mean squared miss of a point,
/// on average; the square root of their ratio is the factor, at least 1.
/// </remarks>
internal static class TogetherFactor
{
    private const int SquaresAlong = 4;
    private const int FewestInSquare = 4;
    private const int FewestSquares = 3;

    private const double OutlierFactor = 6;

    /// <param name="fit">The fit.</param>
    /// <param name="places">The points that it was given; those that it left out as outliers do not count.</param>
    public static double Of(PlaneFitResult fit, IReadOnlyList<PlanePoint> places)
    {
        PlanePoint[] points = [.. places.Where(point => Miss(fit, point) is var miss && double.Hypot(miss.X, miss.Y) <= OutlierFactor * fit.RmsPixels)];
        if (points.Length < FewestInSquare)
            return 1;
        double left = points.Min(point => point.Column);
        double top = points.Min(point => point.Row);
        double side = Math.Max(points.Max(point => point.Column) - left, points.Max(point => point.Row) - top) / SquaresAlong;
        (double X, double Y)[][] squares =
        [
            .. points.GroupBy(point => ((int)((point.Column - left) / side), (int)((point.Row - top) / side)))
                .Where(square => square.Count() >= FewestInSquare)
                .Select(square => square.Select(point => Miss(fit, point)).ToArray()),
        ];
        if (squares.Length < FewestSquares)
            return 1;
        double single = squares.SelectMany(square => square).Average(miss => (miss.X * miss.X) + (miss.Y * miss.Y));
        double together = squares.Average(square => square.Length * (Square(square.Average(miss => miss.X)) + Square(square.Average(miss => miss.Y))));
        return single > 0 ? Math.Sqrt(Math.Max(1, together / single)) : 1;
    }

    private static double Square(double value) => value * value;

    private static (double X, double Y) Miss(PlaneFitResult fit, PlanePoint point)
    {
        (double x, double y) = fit.Map.ToPicture(point.X + (fit.EdgeGrowthMetres * point.OutwardX), point.Y + (fit.EdgeGrowthMetres * point.OutwardY));
        return (point.Column - x, point.Row - y);
    }
}
