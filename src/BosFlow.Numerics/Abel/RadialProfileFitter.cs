using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Numerics.Abel;

/// <summary>Fits a radial profile to scattered slopes of its projection: a cubic spline in the radius, weighted least squares, a penalty on its curvature. The recommended inversion of measured slopes.</summary>
/// <remarks>
/// Smallest sum of ((G_k - slope of the projection of f at y_k) / sigma_k)^2 + strength * INT f''(r)^2 dr. Smoothing spline: C. H. Reinsch 1967, Numer. Math. 10, 177,
/// doi 10.1007/BF02162161; indirect data: G. Wahba 1977, SIAM J. Numer. Anal. 14, 651 (both from memory).
/// </remarks>
public static class RadialProfileFitter
{
    /// <summary>Fits a profile.</summary>
    /// <param name="problem">Slopes and how to smooth; checked here.</param>
    /// <param name="radii">Radii of the wanted values, 0 or above.</param>
    /// <exception cref="ArgumentException">The problem is inconsistent, its correlation is not positive definite, or a radius is negative.</exception>
    public static RadialFit Fit(RadialFitProblem problem, double[] radii)
    {
        problem.Validate();
        if (!radii.All(radius => radius >= 0))
            throw new ArgumentException("Radii must be 0 or above.", nameof(radii));
        int[] used = [.. Enumerable.Range(0, problem.Position.Length).Where(problem.IsUsed)];
        RadialSpline spline = new(problem.Cells ?? Math.Clamp(used.Length / 2, 12, 80), problem.OuterRadius);
        Matrix<double> whitening = Whitening(problem, used);
        Matrix<double> design = whitening * Rows(used.Length, spline, (i, row) => spline.AddSlope(problem.Position[used[i]], row));
        Vector<double> data = whitening * Vector<double>.Build.Dense([.. used.Select(k => problem.Slope[k])]);
        SmoothingFilter filter = new(design, data, Penalty(spline));
        double strength = problem.Strength ?? StrengthSearch.Find(filter, problem.Choice);

        Matrix<double> values = Rows(radii.Length, spline, (i, row) => spline.AddValue(radii[i], row));
        // From whitened slopes to coefficients to values.
        Matrix<double> toCoefficients = filter.Basis * Matrix<double>.Build.DiagonalOfDiagonalVector(filter.Inverse(strength)) * (design * filter.Basis).Transpose();
        Matrix<double> toValues = values * toCoefficients;
        double[] matrix = Spread(toValues * whitening, used, problem.Position.Length);
        double parameters = filter.EffectiveParameters(strength), excess = used.Length - parameters;
        return new RadialFit(matrix, problem.Position.Length)
        {
            Radius = [.. radii],
            Value = (toValues * data).ToArray(),
            Sigma = toValues.RowNorms(2).ToArray(),
            ResolutionWidth = Widths(toValues * design, spline, radii, problem.OuterRadius),
            Strength = strength,
            EffectiveParameters = parameters,
            ResidualRms = excess > 0 ? Math.Sqrt(filter.ResidualSquares(strength) / excess) : double.NaN,
        };
    }

    // Turns slopes into numbers with independent errors of size 1: L^-1 / sigma with L L^T the correlation.
    private static Matrix<double> Whitening(RadialFitProblem problem, int[] used)
    {
        Matrix<double> scale = Matrix<double>.Build.DenseOfDiagonalArray([.. used.Select(k => 1 / problem.Sigma[k])]);
        if (problem.Correlation is not double[] correlation)
            return scale;
        Matrix<double> square = Matrix<double>.Build.Dense(used.Length, used.Length, (i, j) => correlation[(used[i] * problem.Position.Length) + used[j]]);
        try
        {
            return square.Cholesky().Factor.Solve(scale);
        }
        catch (ArgumentException exception)
        {
            throw new ArgumentException("The correlation of the slopes is not positive definite: some sum of their errors would have no variance, or a negative one.", exception);
        }
    }

    // INT f''^2 dr as a quadratic form: f'' is linear in a cell, so that three values (Simpson's rule) are exact.
    private static Matrix<double> Penalty(RadialSpline spline)
    {
        int cells = spline.Coefficients - 1;
        Matrix<double> roots = Rows(3 * cells, spline, (i, row) =>
        {
            spline.AddCurvature(i / 3, i % 3 / 2.0, row);
            double weight = Math.Sqrt(spline.Width * (i % 3 == 1 ? 4 : 1) / 6);
            for (int k = 0; k < row.Length; k++)
                row[k] *= weight;
        });
        return roots.TransposeThisAndMultiply(roots);
    }

    private static Matrix<double> Rows(int count, RadialSpline spline, Action<int, double[]> fill)
    {
        Matrix<double> rows = Matrix<double>.Build.Dense(count, spline.Coefficients);
        for (int i = 0; i < count; i++)
        {
            double[] row = new double[spline.Coefficients];
            fill(i, row);
            rows.SetRow(i, row);
        }

        return rows;
    }

    private static double[] Spread(Matrix<double> weights, int[] used, int slopes)
    {
        double[] matrix = new double[weights.RowCount * slopes];
        for (int i = 0; i < weights.RowCount; i++)
        {
            for (int k = 0; k < used.Length; k++)
                matrix[(i * slopes) + used[k]] = weights[i, k];
        }

        return matrix;
    }

    // Row i: what each true coefficient contributes to value i. A B-spline spans one cell's width in the mean, the one on the axis half of it.
    private static double[] Widths(Matrix<double> response, RadialSpline spline, double[] radii, double outerRadius)
    {
        double[] widths = new double[radii.Length];
        for (int i = 0; i < radii.Length; i++)
        {
            double sum = 0, squares = 0;
            for (int m = 0; m < spline.Coefficients; m++)
            {
                sum += response[i, m];
                squares += response[i, m] * response[i, m] / (m == 0 ? spline.Width / 2 : spline.Width);
            }

            widths[i] = radii[i] < outerRadius ? sum * sum / squares : double.NaN;
        }

        return widths;
    }
}
