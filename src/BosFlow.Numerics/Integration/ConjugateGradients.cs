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

    // The preconditioned residual is the cycle's output times this.
    private double down;

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
        double norm = Math.Sqrt(Dot(right, right));
        if (norm == 0)
            return (0, 0);

        (double energy, double mix) = (Precondition(), 0);
        double limit = tolerance * tolerance * energy;
        int iterations = 0;
        while (energy > limit && iterations < maximum)
        {
            bands.ThrowIfCancelled();
            Turn(mix);
            bands.Run(matrix.Nodes, (from, to) => matrix.Multiply(direction, product, from, to));
            double curvature = Dot(direction, product);
            double step = Dot(direction, residual) / curvature;
            AddScaled(solution, direction, step);
            AddScaled(residual, product, -step);
            energy = Precondition();
            mix = -MixWith(product) / curvature;
            iterations++;
        }

        bands.Run(matrix.Nodes, (from, to) => matrix.Residual(solution, right, residual, from, to));
        double relative = Math.Sqrt(Dot(residual, residual)) / norm;
        // Not "energy > limit": a NaN must end here too. Rounding can make the updated residual drift from the true one, which is the one judged.
        bool converged = energy <= limit && relative <= Math.Max(Drift * tolerance, Drift * Rounding);
        return converged ? (iterations, relative) : throw new NotConvergedException(iterations, relative);
    }

    // The cycle works in single precision, on a residual scaled to order 1. Returns residual . preconditioned residual.
    private double Precondition()
    {
        double size = Math.Sqrt(Dot(residual, residual) / matrix.Nodes);
        double up = size > 0 ? 1 / size : 0;
        down = size;
        bands.Run(residual.Length, (from, to) =>
        {
            for (int i = from; i < to; i++)
                cycle.Input[i] = (float)(up * residual[i]);
        });
        cycle.Run();
        return MixWith(residual);
    }

    // Preconditioned residual . vector.
    private double MixWith(double[] vector)
    {
        float[] output = cycle.Output;
        return down * bands.Sum(vector.Length, (from, to) =>
        {
            double sum = 0;
            for (int i = from; i < to; i++)
                sum += output[i] * vector[i];
            return sum;
        });
    }

    private void Turn(double mix)
    {
        float[] output = cycle.Output;
        bands.Run(direction.Length, (from, to) =>
        {
            for (int i = from; i < to; i++)
                direction[i] = (down * output[i]) + (mix * direction[i]);
        });
    }

    private double Dot(double[] a, double[] b) => bands.Sum(a.Length, (from, to) =>
    {
        Vector<double> wide = Vector<double>.Zero;
        int i = from;
        for (; i + Vector<double>.Count <= to; i += Vector<double>.Count)
            wide += Vector.LoadUnsafe(ref a[i]) * Vector.LoadUnsafe(ref b[i]);
        double sum = Vector.Sum(wide);
        for (; i < to; i++)
            sum += a[i] * b[i];
        return sum;
    });

    private void AddScaled(double[] target, double[] source, double factor) => bands.Run(target.Length, (from, to) =>
    {
        for (int i = from; i < to; i++)
            target[i] += factor * source[i];
    });
}
