namespace BosFlow.Numerics.Integration;

/// <summary>One equation for each pair of neighbouring domain nodes along one axis: the next node's value minus this one's is the integral of the gradient between them.</summary>
/// <remarks>Entry i belongs to the pair of node i and node i + <see cref="Stride"/>; its weight is 0 where there is no such pair or no equation.</remarks>
internal sealed class EdgeEquations
{
    private readonly byte[] kind;
    private readonly double spacing;

    private EdgeEquations(int stride, double spacing, int nodes)
    {
        Stride = stride;
        this.spacing = spacing;
        kind = new byte[nodes];
        Weight = new double[nodes];
        Sigma = new double[nodes];
    }

    public int Stride { get; }

    /// <summary>One over the variance of the equation, errors of the nodes taken independent.</summary>
    public double[] Weight { get; }

    /// <summary>Standard uncertainty of the gradient at each node, 0 where it is not used.</summary>
    public double[] Sigma { get; }

    public static EdgeEquations AlongX(GradientProblem problem, Bands bands) =>
        Build(problem, problem.GradientX, problem.SigmaX, 1, problem.Columns, bands);

    public static EdgeEquations AlongY(GradientProblem problem, Bands bands) =>
        Build(problem, problem.GradientY, problem.SigmaY, problem.Columns, problem.Rows, bands);

    /// <summary>Differences of neighbouring values that a gradient asks for: 0 where there is no equation.</summary>
    public void Differences(double[] gradient, double[] differences, Bands bands) =>
        bands.Run(kind.Length, (from, to) =>
        {
            for (int i = from; i < to; i++)
                differences[i] = kind[i] == EdgeStencil.None ? 0 : spacing * Combine(EdgeStencil.Of(kind[i]), gradient, i);
        });

    /// <summary>The transpose of <see cref="Differences"/>: what each node's gradient contributes to the sum of edge * difference.</summary>
    public void Transpose(double[] edge, double[] gradient)
    {
        Array.Clear(gradient);
        for (int i = 0; i < kind.Length; i++)
        {
            if (kind[i] == EdgeStencil.None)
                continue;
            ReadOnlySpan<double> weights = EdgeStencil.Of(kind[i]);
            for (int k = 0; k < 4; k++)
            {
                if (weights[k] != 0)
                    gradient[i + ((k - 1) * Stride)] += spacing * weights[k] * edge[i];
            }
        }
    }

    private static EdgeEquations Build(GradientProblem problem, double[] gradient, double[] sigma, int stride, int length, Bands bands)
    {
        int nodes = gradient.Length;
        EdgeEquations equations = new(stride, problem.Spacing, nodes);
        bool[] measured = new bool[nodes];
        bands.Run(nodes, (from, to) =>
        {
            for (int i = from; i < to; i++)
            {
                measured[i] = problem.Domain[i] && !double.IsNaN(gradient[i]);
                equations.Sigma[i] = measured[i] ? sigma[i] : 0;
            }
        });
        bands.Run(nodes, (from, to) =>
        {
            for (int i = from; i < to; i++)
            {
                int at = i / stride % length;
                if (at + 1 == length || !problem.Domain[i] || !problem.Domain[i + stride])
                    continue;
                bool before = at > 0 && measured[i - stride];
                bool after = at + 2 < length && measured[i + (2 * stride)];
                byte kind = EdgeStencil.Kind(before, measured[i], measured[i + stride], after);
                equations.kind[i] = kind;
                if (kind != EdgeStencil.None)
                    equations.Weight[i] = 1 / equations.Variance(i);
            }
        });
        return equations;
    }

    // Nodes without weight are not read: they may lie outside the grid or hold NaN.
    private double Combine(ReadOnlySpan<double> weights, double[] gradient, int i)
    {
        double sum = 0;
        for (int k = 0; k < 4; k++)
        {
            if (weights[k] != 0)
                sum += weights[k] * gradient[i + ((k - 1) * Stride)];
        }

        return sum;
    }

    private double Variance(int i)
    {
        ReadOnlySpan<double> weights = EdgeStencil.Of(kind[i]);
        double sum = 0;
        for (int k = 0; k < 4; k++)
        {
            if (weights[k] != 0)
            {
                double term = spacing * weights[k] * Sigma[i + ((k - 1) * Stride)];
                sum += term * term;
            }
        }

        return sum;
    }
}
