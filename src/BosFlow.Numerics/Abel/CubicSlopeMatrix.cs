namespace BosFlow.Numerics.Abel;

/// <summary>The inversion of a slope that is a cubic spline through its nodes, odd about the axis, natural at the last node.</summary>
internal static class CubicSlopeMatrix
{
    public static double[] Build(int nodes)
    {
        double[] matrix = new double[nodes * nodes];
        double[] curvature = new double[nodes];
        for (int i = 0; i < nodes; i++)
        {
            Span<double> row = matrix.AsSpan(i * nodes, nodes);
            Array.Clear(curvature);
            for (int j = i; j < nodes - 1; j++)
                AddCell(i, j, row, curvature);
            AddCurvature(curvature, row);
            row[0] = 0;
        }

        return matrix;
    }

    // What the slopes and the second derivatives at both ends of cell j contribute to the profile at node i.
    private static void AddCell(int i, int j, Span<double> slope, Span<double> curvature)
    {
        double from = Math.Sqrt(((double)j * j) - ((double)i * i)), to = Math.Sqrt(((j + 1.0) * (j + 1)) - ((double)i * i));
        for (int k = 0; k < GaussLegendre.Count; k++)
        {
            double q = from + ((to - from) * GaussLegendre.Node(k));
            double y = Math.Sqrt(((double)i * i) + (q * q));
            double weight = -(to - from) * GaussLegendre.Weight(k) / (Math.PI * y);
            double right = y - j, left = 1 - right;
            slope[j] += weight * left;
            slope[j + 1] += weight * right;
            curvature[j] += weight * ((left * left * left) - left) / 6;
            curvature[j + 1] += weight * ((right * right * right) - right) / 6;
        }
    }

    // Second derivatives M follow from slopes G: M_(j-1) + 4 M_j + M_(j+1) = 6 (G_(j-1) - 2 G_j + G_(j+1)), M = 0 at both ends.
    // The row needs curvature . M as weights of G: solve the (symmetric) system for the weights, then take second differences of them.
    private static void AddCurvature(double[] curvature, Span<double> row)
    {
        int last = curvature.Length - 1;
        double[] pivot = new double[last], weight = new double[last + 1];
        for (int j = 1; j < last; j++)
        {
            pivot[j] = j == 1 ? 4 : 4 - (1 / pivot[j - 1]);
            weight[j] = j == 1 ? curvature[j] : curvature[j] - (weight[j - 1] / pivot[j - 1]);
        }

        for (int j = last - 1; j >= 1; j--)
            weight[j] = (weight[j] - weight[j + 1]) / pivot[j];
        for (int j = 1; j < last; j++)
        {
            row[j - 1] += 6 * weight[j];
            row[j] -= 12 * weight[j];
            row[j + 1] += 6 * weight[j];
        }
    }
}
