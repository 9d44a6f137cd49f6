namespace BosFlow.Numerics.Abel;

/// <summary>The two-point formula: exact for a slope that is linear between nodes.</summary>
internal static class TwoPointMatrix
{
    public static double[] Build(int nodes)
    {
        double[] matrix = new double[nodes * nodes];
        for (int i = 0; i < nodes; i++)
        {
            Span<double> row = matrix.AsSpan(i * nodes, nodes);
            for (int j = i; j < nodes - 1; j++)
            {
                // Integrals of 1 / sqrt(y^2 - i^2) and y / sqrt(y^2 - i^2) over the cell j .. j + 1. In the first cell on the axis the slope is G_1 y: the integral is G_1.
                double root = i == 0 && j == 0 ? 0 : Logarithm(i, j + 1) - Logarithm(i, j);
                double line = Root(i, j + 1) - Root(i, j);
                row[j] -= (((j + 1) * root) - line) / Math.PI;
                row[j + 1] -= (line - (j * root)) / Math.PI;
            }
        }

        // The slope on the axis is 0 by symmetry.
        matrix[0] = 0;
        return matrix;
    }

    private static double Root(int i, int y) => Math.Sqrt(((double)y * y) - ((double)i * i));

    private static double Logarithm(int i, int y) => Math.Log(y + Root(i, y));
}
