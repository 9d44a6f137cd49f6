namespace BosFlow.Numerics.Abel;

/// <summary>Gauss-Legendre's rule with 16 points on 0 .. 1, by Newton's iteration on the Legendre polynomial.</summary>
internal static class GaussLegendre
{
    public const int Count = 16;
    private static readonly (double[] Nodes, double[] Weights) Rule = Compute();

    public static double Node(int k) => Rule.Nodes[k];

    public static double Weight(int k) => Rule.Weights[k];

    private static (double[] Nodes, double[] Weights) Compute()
    {
        double[] nodes = new double[Count], weights = new double[Count];
        for (int k = 0; k < Count; k++)
        {
            double x = -Math.Cos(Math.PI * (k + 0.75) / (Count + 0.5));
            double slope = 0;
            for (int iteration = 0; iteration < 10; iteration++)
            {
                double before = 1, value = x;
                for (int degree = 2; degree <= Count; degree++)
                    (before, value) = (value, ((((2 * degree) - 1) * x * value) - ((degree - 1) * before)) / degree);
                slope = Count * ((x * value) - before) / ((x * x) - 1);
                x -= value / slope;
            }

            nodes[k] = (1 + x) / 2;
            weights[k] = 1 / ((1 - (x * x)) * slope * slope);
        }

        return (nodes, weights);
    }
}
