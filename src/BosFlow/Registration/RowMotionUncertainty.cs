namespace BosFlow.Registration;

/// <summary>Standard uncertainty of a motion fitted by rows: small where rows have undisturbed background, large where they have none.</summary>
/// <remarks>sigma^2 = d C d^T with d the model's functions at the place and C the covariance of the coefficients, the same for u and v.</remarks>
internal sealed class RowMotionUncertainty(RowModel model, double[] covariance) : IMotionUncertainty
{
    private const int Mesh = 8;

    public (double SigmaU, double SigmaV) At(double x, double y)
    {
        int n = model.Unknowns;
        Span<double> design = stackalloc double[n];
        model.Design(x, y, design);
        double variance = 0;
        for (int row = 0; row < n; row++)
        {
            if (design[row] == 0)
                continue;
            double sum = 0;
            for (int column = 0; column < n; column++)
                sum += covariance[(row * n) + column] * design[column];
            variance += design[row] * sum;
        }

        double sigma = Math.Sqrt(Math.Max(0, variance));
        return (sigma, sigma);
    }

    public double Largest(int width, int height)
    {
        double largest = 0;
        int steps = Mesh * model.Shifts.Intervals;
        for (int j = 0; j <= steps; j++)
        {
            double y = (height - 1.0) * j / steps;
            foreach (double x in (double[])[0, (width - 1) / 2.0, width - 1])
                largest = Math.Max(largest, At(x, y).SigmaU);
        }

        return largest;
    }
}
