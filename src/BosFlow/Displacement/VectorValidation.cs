using BosFlow.Numerics.Robust;

namespace BosFlow.Displacement;

/// <summary>Outlier test on a grid of vectors, and replacement of what fails.</summary>
public static class VectorValidation
{
    // Fewer neighbours than this say too little about what is normal.
    private const int FewestNeighbours = 3;

    /// <summary>Normalised-median test of every vector against its up to eight neighbours.</summary>
    /// <param name="grid">Grid of the vectors.</param>
    /// <param name="u">Displacement to the right, px; NaN where not measured.</param>
    /// <param name="v">Displacement down, px.</param>
    /// <param name="trusted">Whether a vector may be tested and may serve as a neighbour; Grid.Count entries.</param>
    /// <param name="threshold">Largest normalised residual of a good vector, 1; 2 in the source.</param>
    /// <param name="noise">Level below which differences are noise, px; 0.1 in the source, less for the small displacements of schlieren.</param>
    /// <returns>True where the vector is an outlier; Grid.Count entries. Never true with fewer than three trusted neighbours.</returns>
    /// <remarks>
    /// r_0 = |U_0 - U_m| / (r_m + e) for each component, U_m the median of the neighbours, r_m the median of |U_i - U_m|,
    /// e the noise level; an outlier where sqrt(r_u^2 + r_v^2) exceeds the threshold. Where a neighbour is missing, the
    /// field is continued linearly from the opposite side, 3 U(+1) - 2 U(+2). On the crest of a plume two neighbours are
    /// equal to the vector and six lie below it, so that r_m is zero and every crest an outlier; therefore a vector is kept
    /// that agrees, by the same measure, with the mean of two opposite neighbours in any of the four directions: a crest
    /// does along itself, a stray vector in none (both are our additions).
    /// Source: Westerweel and Scarano 2005, Exp. Fluids 39:1096, doi 10.1007/s00348-005-0016-6 (constants from memory).
    /// </remarks>
    public static bool[] FindOutliers(NodeGrid grid, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<bool> trusted, double threshold, double noise)
    {
        ArgumentNullException.ThrowIfNull(grid);
        if (u.Length != grid.Count || v.Length != grid.Count || trusted.Length != grid.Count)
            throw new ArgumentException($"u, v and trusted need {grid.Count} entries.");
        bool[] outlier = new bool[grid.Count];
        for (int node = 0; node < grid.Count; node++)
            outlier[node] = IsOutlier(grid, node, u, v, trusted, threshold, noise);
        return outlier;
    }

    /// <summary>The test of one vector.</summary>
    internal static bool IsOutlier(NodeGrid grid, int node, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<bool> trusted, double threshold, double noise)
    {
        if (!trusted[node])
            return false;
        Span<float> neighboursU = stackalloc float[8];
        Span<float> neighboursV = stackalloc float[8];
        int n = Neighbours(grid, node, u, v, trusted, neighboursU, neighboursV);
        if (n < FewestNeighbours)
            return false;
        (double residualU, double scatterU) = Residual(u[node], neighboursU[..n], noise);
        (double residualV, double scatterV) = Residual(v[node], neighboursV[..n], noise);
        return Length(residualU, residualV) > threshold
            && !AgreesAlongALine(grid, node, u, v, trusted, scatterU * threshold, scatterV * threshold);
    }

    private static bool AgreesAlongALine(
        NodeGrid grid, int node, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<bool> trusted, double limitU, double limitV)
    {
        int column = node % grid.Columns, row = node / grid.Columns;
        ReadOnlySpan<(int Dx, int Dy)> directions = [(1, 0), (0, 1), (1, 1), (1, -1)];
        foreach ((int dx, int dy) in directions)
        {
            int ahead = Trusted(grid, column + dx, row + dy, trusted), behind = Trusted(grid, column - dx, row - dy, trusted);
            if (ahead < 0 || behind < 0)
                continue;
            double deviationU = u[node] - (0.5 * (u[ahead] + u[behind])), deviationV = v[node] - (0.5 * (v[ahead] + v[behind]));
            if (Length(deviationU / limitU, deviationV / limitV) <= 1)
                return true;
        }

        return false;
    }

    private static double Length(double a, double b) => Math.Sqrt((a * a) + (b * b));

    /// <summary>Residual of one value against its neighbours, normalised by their own scatter.</summary>
    /// <param name="value">Value at the node, px.</param>
    /// <param name="neighbours">Values around it, without NaN; reordered.</param>
    /// <param name="noise">Noise level, px.</param>
    /// <returns>Normalised residual, 1.</returns>
    public static double NormalisedResidual(float value, Span<float> neighbours, double noise) => Residual(value, neighbours, noise).Normalised;

    private static (double Normalised, double Scatter) Residual(float value, Span<float> neighbours, double noise)
    {
        float median = Median(neighbours);
        for (int i = 0; i < neighbours.Length; i++)
            neighbours[i] = Math.Abs(neighbours[i] - median);
        double scatter = Median(neighbours) + noise;
        return (Math.Abs(value - median) / scatter, scatter);
    }

    private static float Median(Span<float> values) => values.Length == MedianOfEight.Count ? MedianOfEight.Of(values) : Quantiles.Median(values);

    /// <summary>Median of the trusted neighbours of a node, each component for itself.</summary>
    /// <param name="grid">Grid of the vectors.</param>
    /// <param name="node">Index of the node.</param>
    /// <param name="u">Displacement to the right, px.</param>
    /// <param name="v">Displacement down, px.</param>
    /// <param name="trusted">Which vectors count.</param>
    /// <param name="median">The median; undefined where false is returned.</param>
    /// <returns>False with fewer than three trusted neighbours.</returns>
    internal static bool TryNeighbourMedian(
        NodeGrid grid, int node, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<bool> trusted, out (float U, float V) median)
    {
        Span<float> neighboursU = stackalloc float[8];
        Span<float> neighboursV = stackalloc float[8];
        int n = Neighbours(grid, node, u, v, trusted, neighboursU, neighboursV);
        median = (Median(neighboursU[..n]), Median(neighboursV[..n]));
        return n >= FewestNeighbours;
    }

    // A neighbour that is missing (border of the grid, mask) is continued linearly from the two nodes on the other side:
    // one-sided medians would call every strong gradient at a border an outlier.
    private static int Neighbours(
        NodeGrid grid, int node, ReadOnlySpan<float> u, ReadOnlySpan<float> v, ReadOnlySpan<bool> trusted, Span<float> neighboursU, Span<float> neighboursV)
    {
        int column = node % grid.Columns, row = node / grid.Columns, n = 0;
        for (int dy = -1; dy <= 1; dy++)
        {
            for (int dx = -1; dx <= 1; dx++)
            {
                if (dx == 0 && dy == 0)
                    continue;
                int near = Trusted(grid, column + dx, row + dy, trusted);
                if (near >= 0)
                {
                    neighboursU[n] = u[near];
                    neighboursV[n++] = v[near];
                    continue;
                }

                int opposite = Trusted(grid, column - dx, row - dy, trusted), beyond = Trusted(grid, column - (2 * dx), row - (2 * dy), trusted);
                if (opposite < 0 || beyond < 0)
                    continue;
                neighboursU[n] = (3 * u[opposite]) - (2 * u[beyond]);
                neighboursV[n++] = (3 * v[opposite]) - (2 * v[beyond]);
            }
        }

        return n;
    }

    private static int Trusted(NodeGrid grid, int column, int row, ReadOnlySpan<bool> trusted)
    {
        if ((uint)column >= (uint)grid.Columns || (uint)row >= (uint)grid.Rows)
            return -1;
        int node = (row * grid.Columns) + column;
        return trusted[node] ? node : -1;
    }
}
