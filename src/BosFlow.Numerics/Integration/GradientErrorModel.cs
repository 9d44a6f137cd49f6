namespace BosFlow.Numerics.Integration;

/// <summary>Correlated errors of one gradient component over a grid: quadratic forms and random draws.</summary>
internal sealed class GradientErrorModel(GradientErrors errors, int columns, int rows)
{
    private readonly NodeCorrelation alongX = new(errors.CorrelationAlongX, columns);
    private readonly NodeCorrelation alongY = new(errors.CorrelationAlongY, rows);

    /// <summary>Variance of the sum of weight * error.</summary>
    public double Variance(double[] weights, double[] sigma)
    {
        double[] scaled = new double[weights.Length];
        for (int i = 0; i < scaled.Length; i++)
            scaled[i] = weights[i] * sigma[i];
        double[] product = [.. scaled];
        double[] scratch = new double[Math.Max(columns, rows)];
        for (int y = 0; y < rows; y++)
            alongX.Multiply(product, y * columns, 1, scratch);
        for (int x = 0; x < columns; x++)
            alongY.Multiply(product, x, columns, scratch);
        double sum = 0;
        for (int i = 0; i < scaled.Length; i++)
            sum += scaled[i] * product[i];
        return sum;
    }

    /// <summary>Turns independent standard normal numbers into errors, in place.</summary>
    public void Colour(double[] plane, double[] sigma)
    {
        for (int y = 0; y < rows; y++)
            alongX.Colour(plane, y * columns, 1);
        for (int x = 0; x < columns; x++)
            alongY.Colour(plane, x, columns);
        for (int i = 0; i < plane.Length; i++)
            plane[i] *= sigma[i];
    }
}
