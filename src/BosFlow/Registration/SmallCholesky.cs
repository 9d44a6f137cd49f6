namespace BosFlow.Registration;

/// <summary>Cholesky factor of a small symmetric positive definite matrix (row-major), for the normal equations of motion models.</summary>
/// <remarks>By hand because a fit solves thousands of systems of at most 8 x 8: a general library allocates three objects for each.</remarks>
internal static class SmallCholesky
{
    // A pivot below this share of its diagonal entry means that the points do not determine a parameter:
    // scaled points give condition numbers below about 1e4, rounding alone gives pivots near 1e-15.
    private const double LowestPivot = 1e-9;

    /// <summary>Replaces the lower triangle of the matrix by its factor; false where it is singular.</summary>
    public static bool Factor(Span<double> a, int n)
    {
        for (int j = 0; j < n; j++)
        {
            double pivot = a[(j * n) + j];
            double limit = LowestPivot * pivot;
            for (int k = 0; k < j; k++)
                pivot -= a[(j * n) + k] * a[(j * n) + k];
            if (!(pivot > limit) || !(pivot > 0))
                return false;
            double root = Math.Sqrt(pivot);
            a[(j * n) + j] = root;
            for (int i = j + 1; i < n; i++)
            {
                double sum = a[(i * n) + j];
                for (int k = 0; k < j; k++)
                    sum -= a[(i * n) + k] * a[(j * n) + k];
                a[(i * n) + j] = sum / root;
            }
        }

        return true;
    }

    /// <summary>Solves in place with a factor made by <see cref="Factor"/>.</summary>
    public static void Solve(ReadOnlySpan<double> factor, int n, Span<double> b)
    {
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k < i; k++)
                b[i] -= factor[(i * n) + k] * b[k];
            b[i] /= factor[(i * n) + i];
        }

        for (int i = n - 1; i >= 0; i--)
        {
            for (int k = i + 1; k < n; k++)
                b[i] -= factor[(k * n) + i] * b[k];
            b[i] /= factor[(i * n) + i];
        }
    }

    /// <summary>The inverse of the matrix whose factor is given, row-major.</summary>
    public static double[] Inverse(ReadOnlySpan<double> factor, int n)
    {
        double[] inverse = new double[n * n];
        Span<double> column = stackalloc double[n];
        for (int j = 0; j < n; j++)
        {
            column.Clear();
            column[j] = 1;
            Solve(factor, n, column);
            for (int i = 0; i < n; i++)
                inverse[(i * n) + j] = column[i];
        }

        return inverse;
    }
}
