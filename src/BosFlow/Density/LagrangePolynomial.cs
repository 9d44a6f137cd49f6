namespace BosFlow.Density;

/// <summary>The polynomial through equally spaced values (Lagrange's formula).</summary>
internal static class LagrangePolynomial
{
    /// <summary>Weights of values at 0, 1, ..., n - 1 for a place between them.</summary>
    /// <param name="place">The place in steps from the first value.</param>
    /// <param name="weights">Receives n weights that add up to 1.</param>
    public static void Weights(double place, Span<double> weights)
    {
        for (int i = 0; i < weights.Length; i++)
        {
            double weight = 1;
            for (int j = 0; j < weights.Length; j++)
            {
                if (j != i)
                    weight *= (place - j) / (i - j);
            }

            weights[i] = weight;
        }
    }
}
