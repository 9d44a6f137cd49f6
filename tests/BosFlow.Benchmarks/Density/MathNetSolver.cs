using System.Diagnostics;
using BosFlow.Benchmarks.Reporting;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using MathNet.Numerics.LinearAlgebra.Double.Solvers;
using MathNet.Numerics.LinearAlgebra.Solvers;

namespace BosFlow.Benchmarks.Density;

/// <summary>MathNet's stabilised biconjugate gradients with a diagonal preconditioner on the same sparse system.</summary>
internal static class MathNetSolver
{
    public static SolverResult Run(SolverScene scene, int rounds)
    {
        int n = scene.Right.Length;
        SparseMatrix matrix = SparseMatrix.OfIndexed(n, n, scene.Matrix.SelectMany((row, i) => row.Select(entry => (i, entry.Key, entry.Value))));
        Vector<double> right = Vector<double>.Build.Dense(scene.Right), solution = Vector<double>.Build.Dense(n);
        double[] seconds = new double[rounds];
        for (int round = 0; round < rounds; round++)
        {
            solution.Clear();
            Iterator<double> iterator = new(new IterationCountStopCriterion<double>(20000), new ResidualStopCriterion<double>(1e-10));
            long begin = Stopwatch.GetTimestamp();
            new BiCgStab().Solve(matrix, right, solution, iterator, new DiagonalPreconditioner());
            seconds[round] = Stopwatch.GetElapsedTime(begin).TotalSeconds;
            if (iterator.Status != IterationStatus.Converged)
                throw new InvalidOperationException($"MathNet's solver ended as {iterator.Status}.");
        }

        return new SolverResult("MathNet 5.0.0, BiCgStab, diagonal preconditioner", Median.Of(seconds), double.NaN, solution.ToArray());
    }
}
