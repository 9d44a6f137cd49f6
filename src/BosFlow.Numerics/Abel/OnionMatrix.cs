namespace BosFlow.Numerics.Abel;

/// <summary>Inverse of the upper triangular matrix of chord lengths in shells of constant value, times a scale.</summary>
internal static class OnionMatrix
{
    public static double[] Build(int nodes, double scale)
    {
        double[] inverse = new double[nodes * nodes];
        for (int column = 0; column < nodes; column++)
        {
            for (int i = column; i >= 0; i--)
            {
                double sum = i == column ? scale : 0;
                for (int k = i + 1; k <= column; k++)
                    sum -= Chord(i, k) * inverse[(k * nodes) + column];
                inverse[(i * nodes) + column] = sum / Chord(i, i);
            }
        }

        return inverse;
    }

    // Length of the line at distance i inside of shell j, in nodes.
    private static double Chord(int i, int j)
    {
        double outer = Math.Sqrt(Math.Pow((2 * j) + 1, 2) - (4.0 * i * i));
        return j == i ? outer : outer - Math.Sqrt(Math.Pow((2 * j) - 1, 2) - (4.0 * i * i));
    }
}
