namespace BosFlow.Numerics.Abel;

/// <summary>A linear inversion of Abel's transform on equally spaced nodes: profile f(r_i) = sum over j of matrix[i, j] * data(y_j), r_i = y_i = i * spacing, i = 0 .. n - 1.</summary>
/// <remarks>The profile is 0 beyond the last node. Made by <see cref="AbelOperators"/>. Immutable.</remarks>
public sealed class AbelOperator
{
    private readonly double[] matrix;

    internal AbelOperator(string name, AbelInput input, int nodes, double[] matrix)
    {
        Name = name;
        Input = input;
        Nodes = nodes;
        this.matrix = matrix;
    }

    /// <summary>Name of the method, for tables.</summary>
    public string Name { get; }

    /// <summary>What the data are.</summary>
    public AbelInput Input { get; }

    /// <summary>Number n of nodes of data and profile.</summary>
    public int Nodes { get; }

    /// <summary>The matrix, row-major, n * n; row i gives the profile at r_i.</summary>
    public ReadOnlySpan<double> Matrix => matrix;

    /// <summary>Inverts data.</summary>
    /// <param name="data">Projection or slope at the nodes, n entries; a NaN makes every value inside of it NaN.</param>
    /// <returns>Profile at the nodes, n entries: in the unit of the slope, or in that of the projection over a length.</returns>
    /// <exception cref="ArgumentException">The data have another length.</exception>
    public double[] Apply(ReadOnlySpan<double> data)
    {
        CheckLength(data.Length, Nodes);
        double[] profile = new double[Nodes];
        for (int i = 0; i < Nodes; i++)
            profile[i] = Dot(Row(i), data);
        return profile;
    }

    /// <summary>Covariance of the profile.</summary>
    /// <param name="dataCovariance">Covariance of the data, row-major, n * n.</param>
    /// <returns>Row-major, n * n: D C D^T.</returns>
    /// <exception cref="ArgumentException">The covariance has another size.</exception>
    public double[] Covariance(ReadOnlySpan<double> dataCovariance)
    {
        CheckLength(dataCovariance.Length, Nodes * Nodes);
        return LinearPropagation.Covariance(matrix, Nodes, Nodes, dataCovariance);
    }

    /// <summary>Standard uncertainty of the profile for data with independent errors.</summary>
    /// <param name="dataSigma">Standard uncertainty of the data, n entries.</param>
    /// <returns>n entries.</returns>
    /// <exception cref="ArgumentException">The sigmas have another length.</exception>
    public double[] Sigma(ReadOnlySpan<double> dataSigma)
    {
        CheckLength(dataSigma.Length, Nodes);
        return LinearPropagation.Sigma(matrix, Nodes, Nodes, dataSigma);
    }

    private static double Dot(ReadOnlySpan<double> row, ReadOnlySpan<double> data)
    {
        double sum = 0;
        for (int j = 0; j < row.Length; j++)
        {
            // A weight of 0 must not turn a NaN outside of its reach into a NaN here.
            if (row[j] != 0)
                sum += row[j] * data[j];
        }

        return sum;
    }

    private static void CheckLength(int length, int expected)
    {
        if (length != expected)
            throw new ArgumentException($"The operator expects {expected} numbers and got {length}.");
    }

    private ReadOnlySpan<double> Row(int i) => matrix.AsSpan(i * Nodes, Nodes);
}
