using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Camera;

/// <summary>Finds how a plane lies before the camera, and by how much its printer stretched x against y.</summary>
/// <remarks>
/// Square pixels make eight numbers of a projective map into six of position, the focal length and the stretch. Seen straight on, a tilt looks like
/// a stretch and is betrayed by perspective alone; so all are fitted together with what is expected of any camera (<see cref="PlaneParameters"/>), and the
/// uncertainty of the stretch says what remains open. To the covariance is added what it cannot see at a tilt of zero: a tilt of t shortens
/// by t^2/2.
/// </remarks>
public static class PlaneFit
{
    private const double FirstSigma = 0.2;
    private const double LeastSigma = 0.02;
    private const int Rounds = 4;
    private const double OutlierSigmas = 6;

    // Common practice, no source: what a lens's higher terms leave in a ratio of lengths across a picture.
    private const double LensRatioSigma = 3e-4;
    private const double MedianToSigma = 1.4826;
    private static readonly double[] FocalShares = [0.6, 1.2, 3, 8];

    /// <summary>Fits a camera to points of a plane.</summary>
    /// <param name="model">Photo or scan.</param>
    /// <param name="points">Corners of squares, four or more, not on one line.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <returns>The fit; null where the points do not determine one.</returns>
    public static PlaneFitResult? Fit(PlaneModel model, IReadOnlyList<PlanePoint> points, int width, int height) => Fit(model, points, null, width, height);

    /// <summary>Fits a camera to points of a plane and tells the scale over others.</summary>
    /// <param name="model">Photo or scan.</param>
    /// <param name="points">Points of the plane, four or more, not on one line.</param>
    /// <param name="scaleOver">Points of the plane over which the mean scale is told; null = those that the fit rests on.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <returns>The fit; null where the points do not determine one.</returns>
    public static PlaneFitResult? Fit(PlaneModel model, IReadOnlyList<PlanePoint> points, IReadOnlyList<PlanePoint>? scaleOver, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count == 0)
            return null;
        double originX = points.Average(point => point.X);
        double originY = points.Average(point => point.Y);
        var parameters = new PlaneParameters(model, width, height, originX, originY);
        Matrix<double>? map = ProjectiveStart.Of(
            [.. points.Select(point => point with { X = point.X - originX, Y = point.Y - originY })], (width - 1) / 2.0, (height - 1) / 2.0);
        if (map is null)
            return null;

        double[]? best = Search(points, parameters, map);
        if (best is null)
            return null;
        IReadOnlyList<PlanePoint> kept = points;
        double sigma = FirstSigma;
        for (int round = 0; round < Rounds; round++)
        {
            var fit = new PlaneLeastSquares(kept, parameters, sigma);
            fit.Solve(best);
            sigma = Sigma(fit.Misses(best), parameters.Free.Length);
            kept = Inliers(points, new PlaneLeastSquares(points, parameters, sigma).Misses(best));
        }

        return Result(kept, scaleOver ?? kept, parameters, best, sigma);
    }

    private static double[]? Search(IReadOnlyList<PlanePoint> points, PlaneParameters parameters, Matrix<double> map)
    {
        double[]? best = null;
        double lowest = double.PositiveInfinity;
        var fit = new PlaneLeastSquares(points, parameters, FirstSigma);
        double[] shares = parameters.Free.Contains(0) ? FocalShares : [parameters.StandardFocal];
        foreach (double share in shares)
        {
            double[] start = parameters.Start(map, share);
            if (!parameters.Free.Contains(PlaneParameters.FirstTilt))
                (start[4], start[5]) = (0, 0);
            double cost = fit.Solve(start);
            if (cost < lowest)
                (best, lowest) = (start, cost);
        }

        return best;
    }

    private static double Sigma(double[] misses, int parameterCount)
    {
        double sum = misses.Sum(miss => miss * miss);
        return Math.Max(LeastSigma, Math.Sqrt(sum / Math.Max(1, misses.Length - parameterCount)));
    }

    // All four corners of a square go together with a wrong one only if they miss too: each point stands for itself.
    private static IReadOnlyList<PlanePoint> Inliers(IReadOnlyList<PlanePoint> points, double[] misses)
    {
        double[] distances = [.. Enumerable.Range(0, points.Count).Select(i => double.Hypot(misses[2 * i], misses[(2 * i) + 1]))];
        double[] sorted = [.. distances.Order()];
        double limit = OutlierSigmas * Math.Max(LeastSigma, MedianToSigma * sorted[sorted.Length / 2]);
        PlanePoint[] kept = [.. points.Where((_, i) => distances[i] <= limit)];
        return kept.Length >= Math.Max(8, points.Count / 2) ? kept : points;
    }

    private static PlaneFitResult Result(IReadOnlyList<PlanePoint> points, IReadOnlyList<PlanePoint> scaleOver, PlaneParameters parameters, double[] p, double sigma)
    {
        var fit = new PlaneLeastSquares(points, parameters, sigma);
        double[] misses = fit.Misses(p);
        Matrix<double> covariance = fit.Covariance(p);
        double Variance(int parameter) => Array.IndexOf(parameters.Free, parameter) is >= 0 and int at ? Math.Max(0, covariance[at, at]) : 0;
        PlaneCamera camera = parameters.ToCamera(p);
        PlaneMap plane = camera.ToMap();
        double tiltX = Variance(PlaneParameters.FirstTilt);
        double tiltY = Variance(PlaneParameters.FirstTilt + 1);
        double lens = parameters.Free.Contains(0) ? LensRatioSigma * LensRatioSigma : 0;
        double ratio = Math.Exp(p[PlaneParameters.Ratio]);
        double scale = MeanScale(plane, scaleOver);
        double rms = Math.Sqrt(misses.Sum(miss => miss * miss) / points.Count);
        return new PlaneFitResult
        {
            Map = plane,
            Camera = camera,
            Points = points.Count,
            RmsPixels = rms,
            RmsMetres = rms / scale,
            Ratio = ratio,
            RatioSigma = ratio * Math.Sqrt(Variance(PlaneParameters.Ratio) + lens + (((tiltX * tiltX) + (tiltY * tiltY)) / 2)),
            TiltRadians = camera.TiltRadians,
            TiltSigma = Math.Sqrt((tiltX + tiltY) / 2),
            EdgeGrowthMetres = p[PlaneParameters.Growth],
            PixelsPerMetre = scale,
            PixelsPerMetreSigma = ScaleSigma(scaleOver, parameters, p, covariance),
        };
    }

    private static double MeanScale(PlaneMap plane, IReadOnlyList<PlanePoint> points) => Math.Sqrt(points.Average(point => plane.AreaScaleAt(point.X, point.Y)));

    // g^T C g with the slope g of the scale along each free parameter.
    private static double ScaleSigma(IReadOnlyList<PlanePoint> points, PlaneParameters parameters, double[] p, Matrix<double> covariance)
    {
        Vector<double> slope = Vector<double>.Build.Dense(parameters.Free.Length, i =>
        {
            int parameter = parameters.Free[i];
            double step = parameters.StepOf(parameter);
            double[] above = (double[])p.Clone();
            double[] below = (double[])p.Clone();
            above[parameter] += step;
            below[parameter] -= step;
            return (MeanScale(parameters.ToCamera(above).ToMap(), points) - MeanScale(parameters.ToCamera(below).ToMap(), points)) / (2 * step);
        });
        return Math.Sqrt(Math.Max(0, slope * covariance * slope));
    }
}
