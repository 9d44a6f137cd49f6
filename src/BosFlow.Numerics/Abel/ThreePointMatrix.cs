namespace BosFlow.Numerics.Abel;

/// <summary>The three-point operator of C. J. Dasch 1992, Appl. Opt. 31, 1146 (from memory), times a scale.</summary>
internal static class ThreePointMatrix
{
    public static double[] Build(int nodes, double scale)
    {
        double[] matrix = new double[nodes * nodes];
        for (int i = 0; i < nodes; i++)
        {
            for (int j = Math.Max(0, i - 1); j < nodes; j++)
                matrix[(i * nodes) + j] = scale * Entry(i, j);
        }

        return matrix;
    }

    private static double Entry(int i, int j)
    {
        double outer = IntegralZero(i, j + 1) - IntegralOne(i, j + 1);
        if (j == i - 1)
            return outer;
        double middle = outer + (2 * IntegralOne(i, j));
        if (j == i)
            return middle;
        return i == 0 && j == 1
            ? middle - (2 * IntegralOne(i, j - 1))
            : middle - IntegralZero(i, j - 1) - IntegralOne(i, j - 1);
    }

    private static double IntegralZero(int i, int j)
    {
        if (j < i || (i == 0 && j == 0))
            return 0;
        double outer = Chord(i, (2 * j) + 1) + (2 * j) + 1;
        double inner = j == i ? 2 * j : Chord(i, (2 * j) - 1) + (2 * j) - 1;
        return Math.Log(outer / inner) / (2 * Math.PI);
    }

    private static double IntegralOne(int i, int j)
    {
        if (j < i)
            return 0;
        double inner = j == i ? 0 : Chord(i, (2 * j) - 1);
        return ((Chord(i, (2 * j) + 1) - inner) / (2 * Math.PI)) - (2 * j * IntegralZero(i, j));
    }

    private static double Chord(int i, double diameter) => Math.Sqrt((diameter * diameter) - (4.0 * i * i));
}
