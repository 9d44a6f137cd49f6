namespace BosFlow.Statistics;

/// <summary>Mean and spread of a series at many nodes, updated value by value in double precision (Welford 1962, Technometrics 4:419; from memory).</summary>
internal sealed class RunningMoments
{
    private readonly int[] count;
    private readonly double[] mean;
    private readonly double[] squares;

    public RunningMoments(int nodes)
    {
        count = new int[nodes];
        mean = new double[nodes];
        squares = new double[nodes];
    }

    public void Add(int node, double value)
    {
        count[node]++;
        double delta = value - mean[node];
        mean[node] += delta / count[node];
        squares[node] += delta * (value - mean[node]);
    }

    public int Count(int node) => count[node];

    /// <summary>Mean; NaN without a value.</summary>
    public double Mean(int node) => count[node] == 0 ? double.NaN : mean[node];

    /// <summary>Sample standard deviation (divisor n - 1); NaN with fewer than two values.</summary>
    public double Deviation(int node) => count[node] < 2 ? double.NaN : Math.Sqrt(squares[node] / (count[node] - 1));
}
