namespace BosFlow.Registration;

/// <summary>Weighted least squares of a motion model by Gauss-Newton steps, of which a linear model needs one.</summary>
internal static class MotionLeastSquares
{
    private const int MostSteps = 12;
    private const double SmallestStep = 1e-13;

    /// <summary>Improves the parameters; false where the vectors do not determine them.</summary>
    /// <param name="model">The motion model.</param>
    /// <param name="vectors">Scaled vectors.</param>
    /// <param name="factors">Factor on each vector's own weight; empty = 1.</param>
    /// <param name="p">Start in, solution out.</param>
    public static bool Solve(MotionParameters model, MotionVectors vectors, ReadOnlySpan<double> factors, Span<double> p)
    {
        int n = model.Count;
        Span<double> normal = stackalloc double[MotionParameters.MostParameters * MotionParameters.MostParameters];
        Span<double> step = stackalloc double[MotionParameters.MostParameters];
        normal = normal[..(n * n)];
        step = step[..n];
        for (int iteration = 0; iteration < MostSteps; iteration++)
        {
            Accumulate(model, vectors, factors, p, normal, step);
            if (!SmallCholesky.Factor(normal, n))
                return false;
            SmallCholesky.Solve(normal, n, step);
            double largest = 0;
            for (int i = 0; i < n; i++)
            {
                p[i] += step[i];
                largest = Math.Max(largest, Math.Abs(step[i]));
            }

            if (!double.IsFinite(largest))
                return false;
            if (largest < SmallestStep || model.IsLinear)
                break;
        }

        return true;
    }

    /// <summary>Adds factor_i * weight_i * J_i^T J_i of every vector: the information matrix, row-major.</summary>
    public static void Information(MotionParameters model, MotionVectors vectors, ReadOnlySpan<double> factors, ReadOnlySpan<double> p, Span<double> matrix)
    {
        Span<double> unused = stackalloc double[MotionParameters.MostParameters];
        Accumulate(model, vectors, factors, p, matrix, unused[..model.Count]);
    }

    private static void Accumulate(
        MotionParameters model, MotionVectors vectors, ReadOnlySpan<double> factors, ReadOnlySpan<double> p, Span<double> normal, Span<double> right)
    {
        int n = model.Count;
        Span<double> h = stackalloc double[9];
        Span<double> ju = stackalloc double[MotionParameters.MostParameters];
        Span<double> jv = stackalloc double[MotionParameters.MostParameters];
        model.Matrix(p, h);
        if (model.IsSimilarity)
        {
            SimilarityEquations.SetUp(h, vectors, factors, normal, right);
            return;
        }

        normal.Clear();
        right.Clear();
        for (int i = 0; i < vectors.Count; i++)
        {
            double weight = factors.IsEmpty ? vectors.Weight[i] : factors[i] * vectors.Weight[i];
            if (weight == 0)
                continue;
            (double mappedX, double mappedY) = MotionParameters.Map(h, vectors.X[i], vectors.Y[i]);
            double ru = vectors.TargetX[i] - mappedX;
            double rv = vectors.TargetY[i] - mappedY;
            model.Jacobian(p, vectors.X[i], vectors.Y[i], ju, jv);
            for (int row = 0; row < n; row++)
            {
                right[row] += weight * ((ju[row] * ru) + (jv[row] * rv));
                for (int column = 0; column <= row; column++)
                    normal[(row * n) + column] += weight * ((ju[row] * ju[column]) + (jv[row] * jv[column]));
            }
        }

        for (int row = 0; row < n; row++)
        {
            for (int column = row + 1; column < n; column++)
                normal[(row * n) + column] = normal[(column * n) + row];
        }
    }
}
