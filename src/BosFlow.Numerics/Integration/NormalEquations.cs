namespace BosFlow.Numerics.Integration;

/// <summary>Normal equations of the weighted least squares: what nodes are unknown, the matrix, right-hand sides, and the way from a solution back to gradients.</summary>
internal sealed class NormalEquations
{
    private readonly bool[] isKnown;
    private readonly double[] known;
    private readonly int columns;

    public NormalEquations(GradientProblem problem, Bands bands)
    {
        columns = problem.Columns;
        AlongX = EdgeEquations.AlongX(problem, bands);
        AlongY = EdgeEquations.AlongY(problem, bands);
        int nodes = problem.Domain.Length;
        isKnown = new bool[nodes];
        known = new double[nodes];
        for (int i = 0; i < nodes; i++)
        {
            isKnown[i] = problem.Domain[i] && !double.IsNaN(problem.Known[i]);
            known[i] = isKnown[i] ? problem.Known[i] : 0;
        }

        Matrix = new GridStencil<double>(columns, nodes);
        for (int i = 0; i < nodes; i++)
        {
            Link(AlongX, Matrix.Right, i, i + 1);
            Link(AlongY, Matrix.Down, i, i + columns);
        }
    }

    public EdgeEquations AlongX { get; }

    public EdgeEquations AlongY { get; }

    public GridStencil<double> Matrix { get; }

    public ReadOnlySpan<double> Known => known;

    public bool IsKnown(int node) => isKnown[node];

    /// <summary>Right-hand side for differences between neighbours, padded; known values as they are, or as 0.</summary>
    public double[] RightHandSide(double[] differenceX, double[] differenceY, bool withKnown)
    {
        double[] right = Matrix.NewPlane();
        for (int i = 0; i < isKnown.Length; i++)
        {
            AddEdge(right, AlongX.Weight[i], differenceX[i], i, i + 1, withKnown);
            AddEdge(right, AlongY.Weight[i], differenceY[i], i, i + columns, withKnown);
        }

        return right;
    }

    private void AddEdge(double[] right, double weight, double difference, int i, int j, bool withKnown)
    {
        if (weight == 0)
            return;
        double lift = withKnown ? known[j] - known[i] : 0;
        double term = weight * (difference - lift);
        if (!isKnown[i])
            right[i + Matrix.Pad] -= term;
        if (!isKnown[j])
            right[j + Matrix.Pad] += term;
    }

    private void Link(EdgeEquations equations, double[] links, int i, int j)
    {
        double weight = equations.Weight[i];
        if (weight == 0)
            return;
        if (isKnown[i] && isKnown[j])
            return;
        if (isKnown[i])
            Matrix.Excess[j + Matrix.Pad] += weight;
        else if (isKnown[j])
            Matrix.Excess[i + Matrix.Pad] += weight;
        else
            links[i + Matrix.Pad] = weight;
    }
}
