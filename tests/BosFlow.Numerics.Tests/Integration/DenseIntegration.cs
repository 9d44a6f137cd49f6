using BosFlow.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Numerics.Tests.Integration;

/// <summary>The same least squares written out plainly with dense matrices of MathNet: the definition that the solver is compared with.</summary>
internal sealed class DenseIntegration
{
    private readonly GradientProblem problem;
    private readonly List<(int From, int To, bool IsX, (int Node, double Weight)[] Terms)> equations = [];
    private readonly int[] unknowns;
    private readonly double[] gauge;

    /// <summary>For problems with one part; without known value its weighted mean is 0.</summary>
    public DenseIntegration(GradientProblem problem)
    {
        this.problem = problem;
        for (int y = 0; y < problem.Rows; y++)
        {
            for (int x = 0; x < problem.Columns; x++)
            {
                Add(x, y, 1, 0);
                Add(x, y, 0, 1);
            }
        }

        unknowns = [.. Enumerable.Range(0, problem.Domain.Length).Where(i => problem.Domain[i] && double.IsNaN(problem.Known[i]))];
        gauge = new double[problem.Domain.Length];
        if (problem.Domain.Where((inside, i) => inside && !double.IsNaN(problem.Known[i])).Any())
            return;
        foreach ((int from, int to, bool isX, (int, double)[] terms) in equations)
        {
            gauge[from] += 1 / Variance(isX, terms);
            gauge[to] += 1 / Variance(isX, terms);
        }

        double total = gauge.Sum();
        gauge = [.. gauge.Select(share => share / total)];
    }

    /// <summary>Matrix from all gradients (x, then y) to all values; rows of nodes without value are 0.</summary>
    public Matrix<double> Operator()
    {
        int n = problem.Domain.Length;
        (Matrix<double> scaled, Matrix<double> measured) = Scaled();
        Matrix<double> inverse = scaled.PseudoInverse() * measured;
        Matrix<double> full = Matrix<double>.Build.Dense(n, 2 * n);
        for (int k = 0; k < unknowns.Length; k++)
            full.SetRow(unknowns[k], inverse.Row(k));
        Vector<double> mean = full.TransposeThisAndMultiply(Vector<double>.Build.Dense(gauge));
        foreach (int i in unknowns)
            full.SetRow(i, full.Row(i) - mean);
        return full;
    }

    /// <summary>Values, 0 where there is none.</summary>
    public double[] Solve()
    {
        (Matrix<double> scaled, Matrix<double> measured) = Scaled();
        double[] gradients = [.. problem.GradientX.Concat(problem.GradientY).Select(value => double.IsNaN(value) ? 0 : value)];
        Vector<double> right = measured * Vector<double>.Build.Dense(gradients);
        for (int e = 0; e < equations.Count; e++)
        {
            (int from, int to, bool isX, (int, double)[] terms) = equations[e];
            double Known(int i) => double.IsNaN(problem.Known[i]) ? 0 : problem.Known[i];
            right[e] -= (Known(to) - Known(from)) / Math.Sqrt(Variance(isX, terms));
        }

        Vector<double> solution = scaled.PseudoInverse() * right;
        double[] values = [.. problem.Known.Select((value, i) => problem.Domain[i] && !double.IsNaN(value) ? value : 0)];
        for (int k = 0; k < unknowns.Length; k++)
            values[unknowns[k]] = solution[k];
        double mean = values.Zip(gauge, (value, share) => value * share).Sum();
        foreach (int i in unknowns)
            values[i] -= mean;
        return values;
    }

    private (Matrix<double> Scaled, Matrix<double> Measured) Scaled()
    {
        int n = problem.Domain.Length;
        Matrix<double> scaled = Matrix<double>.Build.Dense(equations.Count, unknowns.Length), measured = Matrix<double>.Build.Dense(equations.Count, 2 * n);
        for (int e = 0; e < equations.Count; e++)
        {
            (int from, int to, bool isX, (int Node, double Weight)[] terms) = equations[e];
            double root = 1 / Math.Sqrt(Variance(isX, terms));
            if (Array.IndexOf(unknowns, from) is int a and >= 0)
                scaled[e, a] -= root;
            if (Array.IndexOf(unknowns, to) is int b and >= 0)
                scaled[e, b] += root;
            foreach ((int node, double weight) in terms)
                measured[e, node + (isX ? 0 : n)] = root * weight;
        }

        return (scaled, measured);
    }

    private void Add(int x, int y, int dx, int dy)
    {
        bool isX = dx == 1;
        double[] gradient = isX ? problem.GradientX : problem.GradientY;
        int At(int k) => ((y + (k * dy)) * problem.Columns) + x + (k * dx);
        bool Inside(int k) => x + (k * dx) >= 0 && x + (k * dx) < problem.Columns && y + (k * dy) >= 0 && y + (k * dy) < problem.Rows && problem.Domain[At(k)];
        bool Measured(int k) => Inside(k) && !double.IsNaN(gradient[At(k)]);
        if (!Inside(0) || !Inside(1) || (!Measured(0) && !Measured(1)))
            return;
        double h = problem.Spacing;
        (int, double)[] terms = (Measured(-1), Measured(0), Measured(1), Measured(2)) switch
        {
            (true, true, true, true) => [(At(-1), -h / 24), (At(0), 13 * h / 24), (At(1), 13 * h / 24), (At(2), -h / 24)],
            (_, true, true, _) => [(At(0), h / 2), (At(1), h / 2)],
            (_, true, false, _) => [(At(0), h)],
            _ => [(At(1), h)],
        };
        equations.Add((At(0), At(1), isX, terms));
    }

    private double Variance(bool isX, (int Node, double Weight)[] terms) =>
        terms.Sum(term => Math.Pow(term.Weight * (isX ? problem.SigmaX : problem.SigmaY)[term.Node], 2));
}
