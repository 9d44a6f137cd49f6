using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>A scatter in its two parts.</summary>
/// <param name="Independent">For displacements of the blocks that are independent and of variance 1.</param>
/// <param name="OfEdges">For those that the edges of the blocks make: each edge adds to one of its blocks what it takes from the other, of variance 1.</param>
internal readonly record struct ScatterParts(double Independent, double OfEdges);

/// <summary>How much of the scatter of residuals from group to group of blocks the passes leave, and of that of their results.</summary>
/// <remarks>
/// With E the displacements that the blocks by themselves would tell, W the means over windows, K the predictor between its nodes (cubic convolution), A = W K and S its smoothing, the passes find
/// r = (1 + L + ... + L^(N-1)) W E with L = (1 - A) S, and the predictor of the last of N is p = S (1 + L + ... + L^(N-2)) W E. A group with the mean G E has the residual (G - W) E - (G K - A) p, W and A those of its window. All are sums of products
/// of an operator along x and the same along y, which commute, so that the variance for independent E is a sum of squares of products along one line. What an edge across x moves is independent along y and a difference along x: one of both products is taken over differences
/// (derived; a test compares with random numbers). One pass leaves 1 - (group's part of the window).
/// </remarks>
internal sealed class GroupScatter
{
    // Of a closed line, longer than the passes reach.
    private const int Nodes = 48;

    private readonly BlockLayout layout;
    private readonly int passes;
    private readonly int blocks;
    private readonly Matrix<double> window;
    private readonly Matrix<double> between;
    private readonly Matrix<double> again;
    private readonly Matrix<double> edges;
    private readonly Matrix<double>[] smoothings;
    private readonly Matrix<double>[] windowsAgain;

    /// <summary>Prepares the operators.</summary>
    /// <param name="layout">Blocks of the windows.</param>
    /// <param name="passes">N.</param>
    /// <param name="predictorSmoothings">How often the predictor is smoothed between passes.</param>
    public GroupScatter(BlockLayout layout, int passes, int predictorSmoothings)
    {
        this.layout = layout;
        this.passes = passes;
        blocks = Nodes * layout.PerStep;
        window = Windows(layout.PerStep, layout.PerWindow, blocks);
        between = Predictor(layout, blocks);
        again = window * between;
        edges = Edges(blocks);
        smoothings = Powers(Smoothing(predictorSmoothings), Matrix<double>.Build.DenseIdentity(Nodes));
        windowsAgain = Powers(again, window);
    }

    /// <summary>Variance of a group's residual over that of independent blocks after a single pass.</summary>
    /// <param name="side">Blocks along a side of a group, fewer than a window has.</param>
    public ScatterParts Left(int side)
    {
        List<(double Factor, Matrix<double> OfNodes)> parts = Parts(passes - 1, 1);
        double[] factors = [1, -1, .. parts.SelectMany(part => new[] { -part.Factor, part.Factor })];
        var lines = new Products(factors.Length);
        int step = layout.PerStep;
        for (int block = Nodes / 2 * step; block < ((Nodes / 2) + 1) * step; block++)
        {
            int node = ((2 * block) + 1 - layout.PerWindow + step) / (2 * step);
            Vector<double> group = Vector<double>.Build.Dense(blocks, i => i >= block && i < block + side ? 1.0 / side : 0), ofGroup = group * between, ofNode = again.Row(node);
            lines.Add([group, window.Row(node), .. parts.SelectMany(part => new[] { ofGroup * part.OfNodes, ofNode * part.OfNodes })], edges, step);
        }

        double share = (double)side / layout.PerWindow;
        return lines.Scatter(factors, side * side / (1 - (share * share)));
    }

    /// <summary>Variance of the result over that of independent blocks after a single pass.</summary>
    public ScatterParts Result()
    {
        List<(double Factor, Matrix<double> OfNodes)> parts = Parts(passes, 0);
        var lines = new Products(parts.Count);
        lines.Add([.. parts.Select(part => part.OfNodes.Row(Nodes / 2))], edges, 1);
        return lines.Scatter([.. parts.Select(part => part.Factor)], layout.PerWindow * layout.PerWindow);
    }

    // S^more (1 + L + ... + L^(count - 1)) W as a sum of products.
    private List<(double Factor, Matrix<double> OfNodes)> Parts(int count, int more)
    {
        var parts = new List<(double Factor, Matrix<double> OfNodes)>();
        for (int j = 0; j < count; j++)
        {
            for (int k = 0; k <= j; k++)
                parts.Add((SpecialFunctions.Binomial(j, k) * (k % 2 == 0 ? 1 : -1), smoothings[j + more] * windowsAgain[k]));
        }

        return parts;
    }

    // last, matrix last, matrix^2 last, ...
    private Matrix<double>[] Powers(Matrix<double> matrix, Matrix<double> last)
    {
        var powers = new Matrix<double>[passes + 1];
        powers[0] = last;
        for (int i = 1; i < powers.Length; i++)
            powers[i] = matrix * powers[i - 1];
        return powers;
    }

    private static Matrix<double> Windows(int step, int perWindow, int blocks)
    {
        Matrix<double> window = Matrix<double>.Build.Dense(Nodes, blocks);
        for (int node = 0; node < Nodes; node++)
        {
            for (int i = 0; i < perWindow; i++)
                window[node, ((node * step) + i) % blocks] += 1.0 / perWindow;
        }

        return window;
    }

    // The mean over each block.
    private static Matrix<double> Predictor(BlockLayout layout, int blocks)
    {
        Matrix<double> between = Matrix<double>.Build.Dense(blocks, Nodes);
        for (int x = 0; x < blocks * layout.Side; x++)
        {
            double place = (x - (((layout.PerWindow * layout.Side) - 1) / 2.0)) / (layout.PerStep * layout.Side);
            int before = (int)Math.Floor(place);
            for (int node = before - 1; node <= before + 2; node++)
                between[x / layout.Side, (node + Nodes) % Nodes] += NodeWaves.CubicConvolution(place - node) / layout.Side;
        }

        return between;
    }

    private static Matrix<double> Smoothing(int times) =>
        Matrix<double>.Build.Dense(Nodes, Nodes, (i, j) => i == j ? 0.5 : (i - j + Nodes) % Nodes is 1 or Nodes - 1 ? 0.25 : 0).Power(times);

    // What neighbours share with opposite signs: the difference of the edges' values on both sides of a block, times itself.
    private static Matrix<double> Edges(int blocks) =>
        Matrix<double>.Build.Dense(blocks, blocks, (i, j) => i == j ? 2 : (i - j + blocks) % blocks == 1 || (j - i + blocks) % blocks == 1 ? -1 : 0);

    /// <summary>Products along one line of the terms of a sum.</summary>
    private sealed class Products(int terms)
    {
        private readonly Matrix<double> plain = Matrix<double>.Build.Dense(terms, terms);
        private readonly Matrix<double> differences = Matrix<double>.Build.Dense(terms, terms);

        public void Add(Vector<double>[] terms, Matrix<double> edges, int of)
        {
            Matrix<double> lines = Matrix<double>.Build.DenseOfRowVectors(terms);
            plain.Add(lines * lines.Transpose() / of, plain);
            differences.Add(lines * edges * lines.Transpose() / of, differences);
        }

        public ScatterParts Scatter(double[] factors, double scale)
        {
            Vector<double> weights = Vector<double>.Build.DenseOfArray(factors);
            return new ScatterParts(scale * (weights * plain.PointwiseMultiply(plain) * weights), 2 * scale * (weights * plain.PointwiseMultiply(differences) * weights));
        }
    }
}
