using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>How much of the scatter of residuals from group to group of blocks the passes leave, if the residuals are independent.</summary>
/// <remarks>
/// With E the displacements that the blocks by themselves would tell, independent and of one variance, W the means over windows, K the predictor between its nodes (cubic convolution), A = W K and S its smoothing, the passes find
/// p = S r, r = (1 + L + ... + L^(N-2)) W E with L = (1 - A) S for the predictor p of the last of N, which adds W E - A p. A group with the mean G E has the residual (G - W) E - (G K - A) p, W and A those of its window. All are sums of products
/// of an operator along x and the same along y, which commute, so that its variance is a sum of squares of products along one line (derived; a test compares with random numbers). One pass leaves 1 - (group's part of the window).
/// </remarks>
internal static class GroupScatter
{
    // Of a closed line, longer than the passes reach.
    private const int Nodes = 48;

    /// <summary>Variance of a group's residual over that after a single pass; 1 for one pass.</summary>
    /// <param name="layout">Blocks of the windows.</param>
    /// <param name="side">Blocks along a side of a group, fewer than a window has.</param>
    /// <param name="passes">N.</param>
    /// <param name="smoothings">How often the predictor is smoothed between passes.</param>
    public static double Left(BlockLayout layout, int side, int passes, int smoothings)
    {
        int step = layout.PerStep, perWindow = layout.PerWindow, blocks = Nodes * step;
        Matrix<double> window = Windows(step, perWindow, blocks), between = Predictor(layout, blocks), smoothing = Smoothing(smoothings), again = window * between;
        var parts = new List<(double Factor, Matrix<double> OfNodes)>();
        for (int j = 0; j <= passes - 2; j++)
        {
            for (int k = 0; k <= j; k++)
                parts.Add((SpecialFunctions.Binomial(j, k) * (k % 2 == 0 ? 1 : -1), smoothing.Power(j + 1) * (k == 0 ? window : again.Power(k) * window)));
        }

        int terms = 2 + (2 * parts.Count);
        double[] factors = [1, -1, .. parts.SelectMany(part => new[] { -part.Factor, part.Factor })];
        Matrix<double> products = Matrix<double>.Build.Dense(terms, terms);
        for (int block = Nodes / 2 * step; block < ((Nodes / 2) + 1) * step; block++)
        {
            int node = ((2 * block) + 1 - perWindow + step) / (2 * step);
            Vector<double> group = Vector<double>.Build.Dense(blocks, i => i >= block && i < block + side ? 1.0 / side : 0), ofGroup = group * between, ofNode = again.Row(node);
            Matrix<double> lines = Matrix<double>.Build.DenseOfRowVectors([group, window.Row(node), .. parts.SelectMany(part => new[] { ofGroup * part.OfNodes, ofNode * part.OfNodes })]);
            products += lines * lines.Transpose() / step;
        }

        double variance = 0;
        for (int i = 0; i < terms; i++)
        {
            for (int j = 0; j < terms; j++)
                variance += factors[i] * factors[j] * products[i, j] * products[i, j];
        }

        double share = (double)side / perWindow;
        return variance * side * side / (1 - (share * share));
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

    private static Matrix<double> Smoothing(int times)
    {
        Matrix<double> once = Matrix<double>.Build.Dense(Nodes, Nodes, (i, j) => i == j ? 0.5 : (i - j + Nodes) % Nodes is 1 or Nodes - 1 ? 0.25 : 0);
        Matrix<double> all = Matrix<double>.Build.DenseIdentity(Nodes);
        for (int i = 0; i < times; i++)
            all *= once;
        return all;
    }
}
