namespace BosFlow.Registration;

/// <summary>Weighted least squares of a motion by rows; both components have the same functions, so one factor serves both.</summary>
/// <remarks>
/// Second differences of neighbouring coefficients are drawn to zero as if they were known to be within some pixels: nothing against vectors that are known to
/// hundredths, but it bridges rows without vectors, and the covariance then says how badly.
/// </remarks>
internal sealed class RowLeastSquares
{
    // What a shaken picture may do between three knots (judgement): vibration of tens of px at the highest frequency; turn and stretch less, at the sides of the picture.
    private const double ShiftCurvaturePixels = 30;
    private const double TurnCurvaturePixels = 10;

    private readonly RowModel model;
    private readonly int n;
    private readonly double[] normal;

    public RowLeastSquares(RowModel model)
    {
        this.model = model;
        n = model.Unknowns;
        normal = new double[n * n];
        U = new double[n];
        V = new double[n];
    }

    /// <summary>Coefficients of u, px.</summary>
    public double[] U { get; }

    /// <summary>Coefficients of v, px.</summary>
    public double[] V { get; }

    /// <summary>Solves for the coefficients; false where the vectors do not determine them.</summary>
    /// <param name="vectors">The vectors.</param>
    /// <param name="factors">Weight of each vector.</param>
    /// <param name="scale">Standard deviation of one component of a vector, px.</param>
    /// <param name="before">Motion that gives what the design leaves out; null = not known yet.</param>
    public bool Solve(RowVectors vectors, ReadOnlySpan<double> factors, double scale, RowMotion? before = null)
    {
        Array.Clear(normal);
        Array.Clear(U);
        Array.Clear(V);
        Span<double> design = stackalloc double[n];
        Span<int> used = stackalloc int[2 * RowBasis.Support];
        for (int i = 0; i < vectors.Count; i++)
        {
            if (factors[i] == 0)
                continue;
            model.Design(vectors.X[i], vectors.Y[i], design);
            (double coupledU, double coupledV) = before?.CoupledAt(vectors.X[i], vectors.Y[i]) ?? (0, 0);
            Add(design, used[..NonZero(design, used)], factors[i], vectors.U[i] - coupledU, vectors.V[i] - coupledV);
        }

        Smooth(0, model.Shifts.Count, scale / ShiftCurvaturePixels);
        if (model.TurnsByRow)
            Smooth(model.Shifts.Count, model.TurnCount, scale / TurnCurvaturePixels);
        if (!SmallCholesky.Factor(normal, n))
            return false;
        SmallCholesky.Solve(normal, n, U);
        SmallCholesky.Solve(normal, n, V);
        return true;
    }

    /// <summary>Covariance of the coefficients of the last solution, px squared.</summary>
    /// <param name="scale">Standard deviation of one component of a vector, px.</param>
    public double[] Covariance(double scale)
    {
        double[] covariance = SmallCholesky.Inverse(normal, n);
        for (int i = 0; i < covariance.Length; i++)
            covariance[i] *= scale * scale;
        return covariance;
    }

    private static int NonZero(ReadOnlySpan<double> design, Span<int> used)
    {
        int count = 0;
        for (int i = 0; i < design.Length; i++)
        {
            if (design[i] != 0)
                used[count++] = i;
        }

        return count;
    }

    private void Add(ReadOnlySpan<double> design, ReadOnlySpan<int> used, double weight, double u, double v)
    {
        foreach (int row in used)
        {
            double weighted = weight * design[row];
            U[row] += weighted * u;
            V[row] += weighted * v;
            foreach (int column in used)
                normal[(row * n) + column] += weighted * design[column];
        }
    }

    private void Smooth(int first, int count, double strength)
    {
        ReadOnlySpan<double> difference = [1, -2, 1];
        for (int start = first; start + 2 < first + count; start++)
        {
            for (int i = 0; i < 3; i++)
            {
                for (int j = 0; j < 3; j++)
                    normal[((start + i) * n) + start + j] += strength * strength * difference[i] * difference[j];
            }
        }
    }
}
