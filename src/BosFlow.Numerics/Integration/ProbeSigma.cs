using System.Runtime.ExceptionServices;

namespace BosFlow.Numerics.Integration;

/// <summary>Uncertainty of integrated values from random probes: each draws errors of the gradients, integrates them, and its squares are summed.</summary>
internal sealed class ProbeSigma
{
    private readonly GradientProblem problem;
    private readonly IntegrationOptions options;
    private readonly NormalEquations equations;
    private readonly Hierarchy hierarchy;
    private readonly Gauge gauge;
    private readonly GradientErrorModel model;
    private readonly ulong seed;
    private readonly CancellationToken cancellationToken;

    private ProbeSigma(GradientProblem problem, IntegrationOptions options, NormalEquations equations, Hierarchy hierarchy, Gauge gauge, GradientErrorModel model, ulong seed, CancellationToken cancellationToken)
    {
        (this.problem, this.options, this.equations, this.hierarchy) = (problem, options, equations, hierarchy);
        (this.gauge, this.model, this.seed, this.cancellationToken) = (gauge, model, seed, cancellationToken);
    }

    public static SigmaEstimate Estimate(GradientProblem problem, IntegrationOptions options, NormalEquations equations, Hierarchy hierarchy, Parts parts, Gauge gauge, GradientErrorModel model, double knownSigma, int probes, ulong seed, CancellationToken cancellationToken)
    {
        ProbeSigma estimate = new(problem, options, equations, hierarchy, gauge, model, seed, cancellationToken);
        double[] squares = new double[parts.Part.Length];
        double residuals = 0;
        Slot[] slots = [.. Enumerable.Range(0, Math.Min(options.Threads, probes)).Select(_ => new Slot(equations, hierarchy, cancellationToken))];
        // Probes run side by side, their squares are added in the probes' order: the sum does not depend on the threads.
        for (int first = 0; first < probes; first += slots.Length)
        {
            int count = Math.Min(slots.Length, probes - first), batch = first;
            estimate.RunBatch(count, i => estimate.Probe((ulong)(batch + i), slots[i]));
            for (int i = 0; i < count; i++)
            {
                residuals += slots[i].Residual;
                for (int node = 0; node < squares.Length; node++)
                    squares[node] += slots[i].Values[node] * slots[i].Values[node];
            }
        }

        int excess = ResidualCheck.Excess(equations, parts);
        return new SigmaEstimate
        {
            Sigma = [.. squares.Select((sum, node) => Sigma(sum / probes, parts, node, knownSigma))],
            Probes = probes,
            ExpectedResidualRms = excess > 0 ? Math.Sqrt(residuals / probes / excess) : double.NaN,
        };
    }

    private static double Sigma(double variance, Parts parts, int node, double knownSigma)
    {
        int part = parts.Part[node];
        if (part < 0)
            return double.NaN;
        return Math.Sqrt(variance + (parts.IsAnchored[part] ? knownSigma * knownSigma : 0));
    }

    private void RunBatch(int count, Action<int> probe)
    {
        try
        {
            Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = options.Threads, CancellationToken = cancellationToken }, probe);
        }
        catch (AggregateException exception) when (exception.InnerException is NotConvergedException inner)
        {
            ExceptionDispatchInfo.Throw(inner);
        }
    }

    private void Probe(ulong number, Slot slot)
    {
        Draw(2 * number, slot, equations.AlongX, slot.DifferenceX);
        Draw((2 * number) + 1, slot, equations.AlongY, slot.DifferenceY);
        double[] right = equations.RightHandSide(slot.DifferenceX, slot.DifferenceY, withKnown: false);
        slot.Solver.Solve(right, slot.Solution, options.ProbeTolerance, options.MaximumIterations);
        Array.Copy(slot.Solution, equations.Matrix.Pad, slot.Values, 0, slot.Values.Length);
        gauge.Apply(slot.Values);
        slot.Residual = ResidualCheck.SumOfSquares(equations, slot.DifferenceX, slot.DifferenceY, slot.Values, problem.Columns);
    }

    private void Draw(ulong stream, Slot slot, EdgeEquations axis, double[] differences)
    {
        cancellationToken.ThrowIfCancellationRequested();
        new NormalDraws(seed, stream).Fill(slot.Errors);
        model.Colour(slot.Errors, axis.Sigma);
        axis.Differences(slot.Errors, differences, slot.Bands);
    }

    private sealed class Slot
    {
        public Slot(NormalEquations equations, Hierarchy hierarchy, CancellationToken cancellationToken)
        {
            int nodes = equations.Matrix.Nodes;
            Bands = new Bands(1, cancellationToken);
            Solver = new ConjugateGradients(equations.Matrix, hierarchy, Bands);
            Solution = equations.Matrix.NewPlane();
            (Errors, DifferenceX, DifferenceY, Values) = (new double[nodes], new double[nodes], new double[nodes], new double[nodes]);
        }

        public Bands Bands { get; }

        public ConjugateGradients Solver { get; }

        public double[] Solution { get; }

        public double[] Errors { get; }

        public double[] DifferenceX { get; }

        public double[] DifferenceY { get; }

        public double[] Values { get; }

        public double Residual { get; set; }
    }
}
