using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Camera;

/// <summary>Least squares on the distances in the picture, damped after Levenberg and Marquardt (K. Levenberg 1944; D. Marquardt 1963, from memory).</summary>
internal sealed class PlaneLeastSquares
{
    private const int MostSteps = 60;

    private readonly IReadOnlyList<PlanePoint> points;
    private readonly PlaneParameters parameters;
    private readonly double sigma;

    /// <param name="points">The points.</param>
    /// <param name="parameters">What is fitted.</param>
    /// <param name="sigma">Standard uncertainty of a point's coordinate, px: what expectations are weighed against.</param>
    public PlaneLeastSquares(IReadOnlyList<PlanePoint> points, PlaneParameters parameters, double sigma)
    {
        this.points = points;
        this.parameters = parameters;
        this.sigma = sigma;
    }

    /// <summary>Half the weighted sum of squares.</summary>
    public double Cost(double[] p) => Residuals(p).DotProduct(Residuals(p)) / 2;

    /// <summary>Improves parameters in place until they stand still.</summary>
    /// <returns>The cost reached.</returns>
    public double Solve(double[] p)
    {
        double damping = 1e-3;
        double cost = Cost(p);
        for (int step = 0; step < MostSteps && damping < 1e12; step++)
        {
            Matrix<double> jacobian = Jacobian(p);
            Vector<double> gradient = jacobian.TransposeThisAndMultiply(Residuals(p));
            Matrix<double> normal = jacobian.TransposeThisAndMultiply(jacobian);
            double[] candidate = (double[])p.Clone();
            Vector<double> change = Damped(normal, damping).Solve(-gradient);
            for (int i = 0; i < parameters.Free.Length; i++)
                candidate[parameters.Free[i]] += change[i];
            double reached = Cost(candidate);
            if (!(reached < cost))
            {
                damping *= 10;
                continue;
            }

            bool still = cost - reached < 1e-9 * (1 + cost);
            candidate.CopyTo(p, 0);
            cost = reached;
            damping = Math.Max(damping / 10, 1e-12);
            if (still)
                break;
        }

        return cost;
    }

    /// <summary>Covariance of the free parameters, in their order.</summary>
    public Matrix<double> Covariance(double[] p)
    {
        Matrix<double> jacobian = Jacobian(p);
        return jacobian.TransposeThisAndMultiply(jacobian).PseudoInverse();
    }

    /// <summary>Misses of the points, px: column and row one after the other.</summary>
    public double[] Misses(double[] p)
    {
        PlaneMap map = parameters.ToCamera(p).ToMap();
        double growth = p[PlaneParameters.Growth];
        double[] misses = new double[2 * points.Count];
        for (int i = 0; i < points.Count; i++)
        {
            PlanePoint point = points[i];
            (double column, double row) = map.ToPicture(point.X + (growth * point.OutwardX), point.Y + (growth * point.OutwardY));
            misses[2 * i] = column - point.Column;
            misses[(2 * i) + 1] = row - point.Row;
        }

        return misses;
    }

    private Vector<double> Residuals(double[] p)
    {
        double[] misses = Misses(p);
        double[] all = new double[misses.Length + parameters.Free.Length];
        for (int i = 0; i < misses.Length; i++)
            all[i] = misses[i] / sigma;
        for (int i = 0; i < parameters.Free.Length; i++)
        {
            (double value, double expectedSigma) = parameters.Expected(parameters.Free[i]);
            all[misses.Length + i] = (p[parameters.Free[i]] - value) / expectedSigma;
        }

        return Vector<double>.Build.Dense(all);
    }

    private Matrix<double> Jacobian(double[] p)
    {
        var columns = new Vector<double>[parameters.Free.Length];
        for (int i = 0; i < columns.Length; i++)
        {
            int parameter = parameters.Free[i];
            double step = parameters.StepOf(parameter);
            double[] above = (double[])p.Clone();
            double[] below = (double[])p.Clone();
            above[parameter] += step;
            below[parameter] -= step;
            columns[i] = (Residuals(above) - Residuals(below)) / (2 * step);
        }

        return Matrix<double>.Build.DenseOfColumnVectors(columns);
    }

    private static Matrix<double> Damped(Matrix<double> normal, double damping)
    {
        Matrix<double> damped = normal.Clone();
        for (int i = 0; i < normal.RowCount; i++)
            damped[i, i] += damping * normal[i, i];
        return damped;
    }
}
