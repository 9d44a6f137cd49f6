using System.Numerics;

namespace BosFlow.Numerics.Integration;

/// <summary>Flexible conjugate gradients on the grid's normal equations, preconditioned by a multigrid cycle. One instance serves one solve at a time.</summary>
/// <remarks>
/// M. R. Hestenes and E. Stiefel 1952, doi 10.6028/jres.049.044; the direction is made conjugate explicitly, because the cycle is not the same linear map each time (Y. Notay 2000,
/// SIAM J. Sci. Comput. 22, 1444; from memory). In a part without a known value the matrix is singular and the right-hand side sums to 0: the iteration stays consistent, the constant is left to the caller.
/// </remarks>
internal sealed class ConjugateGradients
{
    private const double Drift = 1e3;
    private const double Rounding = 1e-11;

    private readonly GridStencil<double> matrix;
    private readonly Cycle cycle;
    private readonly Bands bands;
    private readonly double[] residual;
    private readonly double[] direction;
    private readonly double[] product;

    // The cycle's input is the residual times this.
    private double scale;

    public ConjugateGradients(GridStencil<double> matrix, Hierarchy hierarchy, Bands bands)
    {
        this.matrix = matrix;
        this.bands = bands;
        cycle = new Cycle(hierarchy, bands);
        residual = matrix.NewPlane();
        direction = matrix.NewPlane();
        product = matrix.NewPlane();
    }

    /// <summary>Solves A x = b from x = 0.</summary>
    /// <param name="right">Padded right-hand side, 0 at nodes without equation.</param>
    /// <param name="solution">Padded; overwritten.</param>
    /// <param name="tolerance">Error in the energy norm, as the preconditioner sees it, relative to that of x = 0.</param>
    /// <param name="maximum">Iterations allowed.</param>
    /// <returns>Iterations done and the final relative residual, computed anew.</returns>
    /// <exception cref="NotConvergedException">The tolerance was not reached.</exception>
    public (int Iterations, double RelativeResidual) Solve(double[] right, double[] solution, double tolerance, int maximum)
    {
        Array.Clear(solution);
        Array.Clear(direction);
        Array.Copy(right, residual, right.Length);
        double norm = Math.Sqrt(bands.Sum(right.Length, (from, to) => (Dot(right, right, from, to), 0, 0)).A);
        if (norm == 0)
            return (0, 0);

        // The cycle works in single precision, on a residual that begins at order 1.
        scale = Math.Sqrt(matrix.Nodes) / norm;
        Step(solution, 0);
        (double energy, double mix, double curvature) = (Precondition().Energy, 0, 1);
        double limit = tolerance * tolerance * energy;
        int iterations = 0;
        while (energy > limit && iterations < maximum)
        {
            bands.ThrowIfCancelled();
            (curvature, double along) = Turn(mix);
            Step(solution, along / curvature);
            (energy, double mixed) = Precondition();
            mix = -mixed / curvature;
            iterations++;
        }

        double left = bands.Sum(matrix.Nodes, (from, to) =>
        {
            matrix.Residual(solution, right, residual, from, to);
            return (Dot(residual, residual, from + matrix.Pad, to + matrix.Pad), 0, 0);
        }).A;
        double relative = Math.Sqrt(left) / norm;
        // Not "energy > limit": a NaN must end here too. Rounding can make the updated residual drift from the true one, which is the one judged.
        bool converged = energy <= limit && relative <= Math.Max(Drift * tolerance, Drift * Rounding);
        return converged ? (iterations, relative) : throw new NotConvergedException(iterations, relative);
    }

    // Runs the cycle on the residual. Returns (preconditioned residual) . residual, and . product.
    private (double Energy, double Mixed) Precondition()
    {
        cycle.Run();
        float[] output = cycle.Output;
        (double energy, double mixed, _) = bands.Sum(residual.Length, (from, to) => (Dot(output, residual, from, to), Dot(output, product, from, to), 0));
        return (energy / scale, mixed / scale);
    }

    // direction = preconditioned residual + mix * direction; product = A direction. Returns direction . product and direction . residual.
    private (double Curvature, double Along) Turn(double mix)
    {
        float[] output = cycle.Output;
        double down = 1 / scale;
        bands.Run(direction.Length, (from, to) =>
        {
            for (int i = from; i < to; i++)
                direction[i] = (down * output[i]) + (mix * direction[i]);
        });
        int pad = matrix.Pad;
        (double curvature, double along, _) = bands.Sum(matrix.Nodes, (from, to) =>
        {
            matrix.Multiply(direction, product, from, to);
            return (Dot(direction, product, from + pad, to + pad), Dot(direction, residual, from + pad, to + pad), 0);
        });
        return (curvature, along);
    }

    // solution += step * direction; residual -= step * product; the new residual goes to the cycle.
    private void Step(double[] solution, double step)
    {
        float[] input = cycle.Input;
        bands.Run(residual.Length, (from, to) =>
        {
            for (int i = from; i < to; i++)
            {
                solution[i] += step * direction[i];
                double value = residual[i] - (step * product[i]);
                residual[i] = value;
                input[i] = (float)(scale * value);
            }
        });
    }

    private static double Dot(double[] a, double[] b, int from, int to)
    {
        Vector<double> wide = Vector<double>.Zero;
        int i = from;
        for (; i + Vector<double>.Count <= to; i += Vector<double>.Count)
            wide += Vector.LoadUnsafe(ref a[i]) * Vector.LoadUnsafe(ref b[i]);
        double sum = Vector.Sum(wide);
        for (; i < to; i++)
            sum += a[i] * b[i];
        return sum;
    }

    private static double Dot(float[] a, double[] b, int from, int to)
    {
        Vector<double> low = Vector<double>.Zero, high = Vector<double>.Zero;
        int i = from;
        for (; i + Vector<float>.Count <= to; i += Vector<float>.Count)
        {
            Vector.Widen(Vector.LoadUnsafe(ref a[i]), out Vector<double> lowA, out Vector<double> highA);
            low += lowA * Vector.LoadUnsafe(ref b[i]);
            high += highA * Vector.LoadUnsafe(ref b[i + Vector<double>.Count]);
        }

        double sum = Vector.Sum(low + high);
        for (; i < to; i++)
            sum += a[i] * b[i];
        return sum;
    }
}
