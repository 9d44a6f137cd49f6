using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Camera;

/// <summary>The projective map that fits points in a linear sense: where the exact fit starts from.</summary>
/// <remarks>
/// Normalised direct linear transform: both sets of points are moved to their mean and scaled, then the smallest eigenvector of
/// A^T A is the map. Source: R. Hartley 1997, "In defense of the eight-point algorithm", IEEE TPAMI 19:580 (from memory).
/// </remarks>
internal static class ProjectiveStart
{
    private const int FewestPoints = 4;

    /// <summary>The 3 x 3 matrix from plane to picture; null where the points do not determine one.</summary>
    /// <param name="points">Points on the plane, m, and in the picture, px.</param>
    /// <param name="centreX">Column that the picture's coordinates count from.</param>
    /// <param name="centreY">Row that the picture's coordinates count from.</param>
    public static Matrix<double>? Of(IReadOnlyList<PlanePoint> points, double centreX, double centreY)
    {
        if (points.Count < FewestPoints)
            return null;
        Matrix<double> plane = Scaling([.. points.Select(point => (point.X, point.Y))]);
        Matrix<double> picture = Scaling([.. points.Select(point => (point.Column - centreX, point.Row - centreY))]);
        Matrix<double> normal = Matrix<double>.Build.Dense(9, 9);
        foreach (PlanePoint point in points)
        {
            (double x, double y) = Scaled(plane, point.X, point.Y);
            (double u, double v) = Scaled(picture, point.Column - centreX, point.Row - centreY);
            Vector<double> first = Vector<double>.Build.DenseOfArray([x, y, 1, 0, 0, 0, -u * x, -u * y, -u]);
            Vector<double> second = Vector<double>.Build.DenseOfArray([0, 0, 0, x, y, 1, -v * x, -v * y, -v]);
            normal += first.OuterProduct(first) + second.OuterProduct(second);
        }

        MathNet.Numerics.LinearAlgebra.Factorization.Evd<double> eigen = normal.Evd(Symmetricity.Symmetric);
        // A second eigenvalue near zero: points on a line leave more than one map.
        if (!(eigen.EigenValues[1].Real > 1e-9 * eigen.EigenValues[8].Real))
            return null;
        Vector<double> h = eigen.EigenVectors.Column(0);
        Matrix<double> map = picture.Inverse() * Matrix<double>.Build.DenseOfRowMajor(3, 3, h) * plane;
        // The sign is free: points lie before the camera where w is positive.
        return (map[2, 0] * points[0].X) + (map[2, 1] * points[0].Y) + map[2, 2] < 0 ? -map : map;
    }

    private static (double X, double Y) Scaled(Matrix<double> scaling, double x, double y) =>
        ((scaling[0, 0] * x) + scaling[0, 2], (scaling[1, 1] * y) + scaling[1, 2]);

    private static Matrix<double> Scaling((double X, double Y)[] points)
    {
        double meanX = points.Average(point => point.X);
        double meanY = points.Average(point => point.Y);
        double square = points.Average(point => ((point.X - meanX) * (point.X - meanX)) + ((point.Y - meanY) * (point.Y - meanY)));
        double scale = square > 0 ? Math.Sqrt(2 / square) : 1;
        return Matrix<double>.Build.DenseOfArray(new[,] { { scale, 0, -scale * meanX }, { 0, scale, -scale * meanY }, { 0, 0, 1 } });
    }
}
