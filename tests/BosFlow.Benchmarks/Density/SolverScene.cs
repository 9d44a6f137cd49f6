using BosFlow.Numerics.Integration;

namespace BosFlow.Benchmarks.Density;

/// <summary>A gradient to integrate, and its normal equations written out as a sparse matrix for general-purpose solvers.</summary>
internal sealed class SolverScene
{
    private readonly SortedDictionary<int, double>[] rows;

    public SolverScene(int columns, int height, bool exact)
    {
        int nodes = columns * height;
        Random random = new(1);
        (Truth, Number) = (new double[nodes], new int[nodes]);
        Problem = new GradientProblem
        {
            Columns = columns,
            Rows = height,
            Spacing = 1,
            GradientX = new double[nodes],
            GradientY = new double[nodes],
            SigmaX = new double[nodes],
            SigmaY = new double[nodes],
            Domain = [.. Enumerable.Repeat(true, nodes)],
            Known = [.. Enumerable.Repeat(double.NaN, nodes)],
        };
        for (int i = 0; i < nodes; i++)
        {
            (double x, double y) = ((double)(i % columns) / columns, (double)(i / columns) / columns);
            // The quadratic is integrated exactly by every stencil: its least squares solution is itself. Noise makes the other scene's equations contradict each other.
            double noise = exact ? 0 : 0.2 * (random.NextDouble() - 0.5) / columns;
            Truth[i] = (x * x) - (2 * x * y) + (0.5 * y * y) + x;
            Problem.GradientX[i] = (((2 * x) - (2 * y) + 1) / columns) + noise;
            Problem.GradientY[i] = ((y - (2 * x)) / columns) - noise;
            Problem.SigmaX[i] = 0.01 * (1 + random.NextDouble());
            Problem.SigmaY[i] = 0.01 * (1 + random.NextDouble());
            if (i % columns == 0)
                Problem.Known[i] = Truth[i];
        }

        int unknowns = 0;
        for (int i = 0; i < nodes; i++)
            Number[i] = double.IsNaN(Problem.Known[i]) ? unknowns++ : -1;
        Right = new double[unknowns];
        rows = exact ? [] : [.. Enumerable.Range(0, unknowns).Select(_ => new SortedDictionary<int, double>())];
        for (int i = 0; i < nodes && !exact; i++)
        {
            if ((i + 1) % columns != 0)
                Add(Problem.GradientX, Problem.SigmaX, i, 1, i % columns > 0, (i + 2) % columns > 1 && i % columns < columns - 2);
            if (i + columns < nodes)
                Add(Problem.GradientY, Problem.SigmaY, i, columns, i >= columns, i + (2 * columns) < nodes);
        }
    }

    public GradientProblem Problem { get; }

    public double[] Truth { get; }

    /// <summary>Number of the unknown at each node, -1 where the value is known.</summary>
    public int[] Number { get; }

    public double[] Right { get; }

    /// <summary>The matrix's entries, row by row.</summary>
    public IReadOnlyList<IReadOnlyDictionary<int, double>> Matrix => rows;

    /// <summary>Values at the unknown nodes.</summary>
    public double[] Unknowns(double[] values) => [.. values.Where((_, i) => Number[i] >= 0)];

    private void Add(double[] gradient, double[] sigma, int i, int stride, bool before, bool after)
    {
        double[] weights = before && after ? [-1 / 24.0, 13 / 24.0, 13 / 24.0, -1 / 24.0] : [0, 0.5, 0.5, 0];
        (double difference, double variance) = (0, 0);
        for (int k = 0; k < 4; k++)
        {
            if (weights[k] == 0)
                continue;
            int node = i + ((k - 1) * stride);
            difference += weights[k] * gradient[node];
            variance += Math.Pow(weights[k] * sigma[node], 2);
        }

        End(Number[i], Number[i + stride], -difference / variance, 1 / variance, Problem.Known[i + stride]);
        End(Number[i + stride], Number[i], difference / variance, 1 / variance, Problem.Known[i]);
    }

    private void End(int own, int other, double right, double weight, double knownOther)
    {
        if (own < 0)
            return;
        Right[own] += right + (other < 0 ? weight * knownOther : 0);
        rows[own][own] = rows[own].GetValueOrDefault(own) + weight;
        if (other >= 0)
            rows[own][other] = -weight;
    }
}
