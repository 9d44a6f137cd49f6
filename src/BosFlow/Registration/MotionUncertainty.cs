namespace BosFlow.Registration;

/// <summary>
/// Standard uncertainty of a fitted motion at any place of the reference picture: small inside the region
/// that the vectors cover, growing outside of it.
/// </summary>
/// <remarks>
/// sigma^2(x) = J(x) C J(x)^T with C the covariance of the parameters and J their derivative.
/// C takes the errors of the vectors as independent of each other.
/// </remarks>
public sealed class MotionUncertainty : IMotionUncertainty
{
    private readonly MotionParameters parameters;
    private readonly PointScaling scaling;
    private readonly double[] values;
    private readonly double[] covariance;

    internal MotionUncertainty(MotionParameters parameters, PointScaling scaling, double[] values, double[] covariance)
    {
        this.parameters = parameters;
        this.scaling = scaling;
        this.values = values;
        this.covariance = covariance;
    }

    /// <inheritdoc/>
    public (double SigmaU, double SigmaV) At(double x, double y)
    {
        int count = parameters.Count;
        Span<double> ju = stackalloc double[MotionParameters.MostParameters];
        Span<double> jv = stackalloc double[MotionParameters.MostParameters];
        parameters.Jacobian(values, scaling.X(x), scaling.Y(y), ju, jv);
        return (
            scaling.Scale * Math.Sqrt(QuadraticForm(ju[..count])),
            scaling.Scale * Math.Sqrt(QuadraticForm(jv[..count])));
    }

    /// <inheritdoc/>
    /// <remarks>A projective motion is least certain in a corner.</remarks>
    public double Largest(int width, int height)
    {
        double largest = 0;
        foreach ((double x, double y) in new (double, double)[] { (0, 0), (width - 1, 0), (0, height - 1), (width - 1, height - 1) })
        {
            (double sigmaU, double sigmaV) = At(x, y);
            largest = Math.Max(largest, Math.Max(sigmaU, sigmaV));
        }

        return largest;
    }

    private double QuadraticForm(ReadOnlySpan<double> j)
    {
        double sum = 0;
        for (int row = 0; row < j.Length; row++)
        {
            for (int column = 0; column < j.Length; column++)
                sum += j[row] * covariance[(row * j.Length) + column] * j[column];
        }

        return Math.Max(0, sum);
    }
}
