namespace BosFlow.Numerics.Integration;

/// <summary>Integrates a measured gradient on a regular grid by weighted least squares, with masks, known values, a check of the data and uncertainties.</summary>
/// <remarks>
/// For each pair of neighbouring domain nodes the difference of their values is the integral of the gradient between them, weighted by one over the
/// variance of that equation (Gauss and Markov; errors of the nodes taken independent for the weights). Integral: fourth order, h/24 (-g[-1] + 13 g[0] + 13 g[1] - g[2]),
/// where the outer neighbours are measured too; trapezium otherwise; the gradient of one node where only one of the two has it. Solver: conjugate gradients
/// preconditioned by algebraic multigrid. The same input gives the same bytes on any number of threads. Safe to use from several threads at once.
/// </remarks>
public sealed class GradientIntegrator
{
    private readonly GradientProblem problem;
    private readonly IntegrationOptions options;
    private readonly NormalEquations equations;
    private readonly Hierarchy hierarchy;
    private readonly Parts parts;
    private readonly Gauge gauge;

    private GradientIntegrator(GradientProblem problem, IntegrationOptions options, CancellationToken cancellationToken)
    {
        this.problem = problem;
        this.options = options;
        Bands bands = new(options.Threads, cancellationToken);
        equations = new NormalEquations(problem, bands);
        double[] weightX = equations.AlongX.Weight, weightY = equations.AlongY.Weight;
        double largest = Math.Max(weightX.Max(), weightY.Max());
        if (!double.IsFinite(largest))
            throw new ArgumentException("The smallest sigma of the gradient is so small that its square vanishes; scale the problem.");
        parts = Parts.Find(problem, weightX, weightY);
        gauge = new Gauge(parts, weightX, weightY, problem.Columns);
        hierarchy = Hierarchy.Build(new GridLevel(equations.Matrix, problem.Columns, largest > 0 ? 1 / largest : 1, bands), bands);
    }

    /// <summary>Sets up equations and solver; solves and probes share them.</summary>
    /// <param name="problem">The measured gradient; checked here, not to be changed afterwards.</param>
    /// <param name="options">Tolerances and threads.</param>
    /// <param name="cancellationToken">Stops the set-up.</param>
    /// <exception cref="ArgumentException">The problem or the options are inconsistent.</exception>
    public static GradientIntegrator Prepare(GradientProblem problem, IntegrationOptions options, CancellationToken cancellationToken)
    {
        problem.Validate();
        options.Validate();
        return new GradientIntegrator(problem, options, cancellationToken);
    }

    /// <summary>Number of the connected part of each node; see <see cref="IntegrationResult.Part"/>.</summary>
    public ReadOnlySpan<int> Part => parts.Part;

    /// <summary>Integrates the gradient.</summary>
    /// <param name="cancellationToken">Stops the solver between two iterations.</param>
    /// <exception cref="NotConvergedException">The solver did not reach its tolerance.</exception>
    public IntegrationResult Solve(CancellationToken cancellationToken)
    {
        Bands bands = new(options.Threads, cancellationToken);
        double[] differenceX = new double[parts.Part.Length], differenceY = new double[parts.Part.Length];
        equations.AlongX.Differences(problem.GradientX, differenceX, bands);
        equations.AlongY.Differences(problem.GradientY, differenceY, bands);
        ConjugateGradients solver = new(equations.Matrix, hierarchy, bands);
        double[] right = equations.RightHandSide(differenceX, differenceY, withKnown: true), solution = equations.Matrix.NewPlane();
        (int iterations, double residual) = solver.Solve(right, solution, options.Tolerance, options.MaximumIterations);

        double[] values = Unpad(solution);
        for (int i = 0; i < values.Length; i++)
        {
            if (equations.IsKnown(i))
                values[i] = equations.Known[i];
        }

        gauge.Apply(values);
        int excess = ResidualCheck.Excess(equations, parts);
        double squares = ResidualCheck.SumOfSquares(equations, differenceX, differenceY, values, problem.Columns);
        double[] map = ResidualCheck.Map(equations, differenceX, differenceY, values, problem.Columns, excess);
        for (int i = 0; i < values.Length; i++)
        {
            if (parts.Part[i] < 0)
                values[i] = double.NaN;
        }

        return new IntegrationResult
        {
            Values = values,
            Part = [.. parts.Part],
            IsAnchored = [.. parts.IsAnchored],
            Iterations = iterations,
            RelativeResidual = residual,
            ResidualRms = excess > 0 ? Math.Sqrt(squares / excess) : double.NaN,
            NormalisedResidual = map,
        };
    }

    /// <summary>How the value of one node follows from the measured gradients, by a solve of the transposed problem.</summary>
    /// <param name="node">Row-major number of the node; it must have a value.</param>
    /// <param name="cancellationToken">Stops the solver between two iterations.</param>
    /// <exception cref="ArgumentException">The node has no value.</exception>
    /// <exception cref="NotConvergedException">The solver did not reach its tolerance.</exception>
    public NodeWeights WeightsAt(int node, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(node);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(node, parts.Part.Length);
        if (parts.Part[node] < 0)
            throw new ArgumentException($"Node {node} has no value: it lies outside of the domain or no equation reaches it.", nameof(node));
        double[] weightX = new double[parts.Part.Length], weightY = new double[parts.Part.Length];
        if (equations.IsKnown(node))
            return new NodeWeights(weightX, weightY);

        Bands bands = new(options.Threads, cancellationToken);
        double[] right = equations.Matrix.NewPlane(), solution = equations.Matrix.NewPlane();
        int pad = equations.Matrix.Pad;
        for (int i = 0; i < weightX.Length; i++)
        {
            if (parts.Part[i] == parts.Part[node])
                right[i + pad] = -gauge.Share[i];
        }

        right[node + pad] += 1;
        new ConjugateGradients(equations.Matrix, hierarchy, bands).Solve(right, solution, options.Tolerance, options.MaximumIterations);
        double[] influence = Unpad(solution);
        equations.AlongX.Transpose(Weighted(equations.AlongX, influence), weightX);
        equations.AlongY.Transpose(Weighted(equations.AlongY, influence), weightY);
        return new NodeWeights(weightX, weightY);
    }

    /// <summary>Standard uncertainty of the value at one node, exact for the stated errors.</summary>
    /// <param name="node">Row-major number of the node; it must have a value.</param>
    /// <param name="errors">How errors of the gradient hang together. Their size is the problem's sigmas.</param>
    /// <param name="cancellationToken">Stops the solver between two iterations.</param>
    /// <returns>One standard deviation, in the unit of the values.</returns>
    /// <exception cref="ArgumentException">The node has no value, or the errors are inconsistent.</exception>
    /// <exception cref="NotConvergedException">The solver did not reach its tolerance.</exception>
    public double SigmaAt(int node, GradientErrors errors, CancellationToken cancellationToken)
    {
        errors.Validate();
        NodeWeights weights = WeightsAt(node, cancellationToken);
        GradientErrorModel model = new(errors, problem.Columns, problem.Rows);
        double common = parts.IsAnchored[parts.Part[node]] ? errors.KnownSigma : 0;
        double variance = model.Variance(weights.OfGradientX, equations.AlongX.Sigma) + model.Variance(weights.OfGradientY, equations.AlongY.Sigma);
        return Math.Sqrt(variance + (common * common));
    }

    /// <summary>Standard uncertainty at every node, from random errors pushed through the same solver.</summary>
    /// <param name="errors">How errors of the gradient hang together. Their size is the problem's sigmas.</param>
    /// <param name="probes">Number N of probes, 2 or more; the result scatters by 1 / sqrt(2 N), relative. 256 gives 4.4 %.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="cancellationToken">Stops between two iterations.</param>
    /// <exception cref="ArgumentException">The errors are inconsistent.</exception>
    /// <exception cref="NotConvergedException">The solver did not reach its tolerance.</exception>
    public SigmaEstimate Sigma(GradientErrors errors, int probes, ulong seed, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(probes, 2);
        errors.Validate();
        GradientErrorModel model = new(errors, problem.Columns, problem.Rows);
        return ProbeSigma.Estimate(problem, options, equations, hierarchy, parts, gauge, model, errors.KnownSigma, probes, seed, cancellationToken);
    }

    private static double[] Weighted(EdgeEquations axis, double[] influence)
    {
        double[] edge = new double[influence.Length];
        for (int i = 0; i < edge.Length; i++)
        {
            if (axis.Weight[i] > 0)
                edge[i] = axis.Weight[i] * (influence[i + axis.Stride] - influence[i]);
        }

        return edge;
    }

    private double[] Unpad(double[] plane) => plane.AsSpan(equations.Matrix.Pad, parts.Part.Length).ToArray();
}
