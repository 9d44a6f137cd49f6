namespace BosFlow.Density;

/// <summary>A linear inversion from the slope of a projection to the radial profile, with the propagation of its errors.</summary>
/// <param name="matrix">Row-major, count x count: profile = matrix times slope.</param>
/// <param name="count">Number of radii.</param>
internal sealed class SlopeInversion(double[] matrix, int count)
{
    /// <summary>The profile of a slope.</summary>
    public double[] Apply(double[] slope)
    {
        double[] profile = new double[count];
        for (int i = 0; i < count; i++)
        {
            double sum = 0;
            for (int j = 0; j < count; j++)
                sum += matrix[(i * count) + j] * slope[j];
            profile[i] = sum;
        }

        return profile;
    }

    /// <summary>Standard uncertainty of the profile.</summary>
    /// <param name="covariance">Covariance of the slope, row-major; samples far from each other are uncorrelated.</param>
    public double[] Sigma(double[] covariance)
    {
        int band = Band(covariance);
        double[] sigma = new double[count];
        for (int i = 0; i < count; i++)
        {
            double variance = 0;
            for (int j = 0; j < count; j++)
            {
                double sum = 0;
                int end = Math.Min(count, j + band + 1);
                for (int k = Math.Max(0, j - band); k < end; k++)
                    sum += covariance[(j * count) + k] * matrix[(i * count) + k];
                variance += matrix[(i * count) + j] * sum;
            }

            sigma[i] = Math.Sqrt(Math.Max(0, variance));
        }

        return sigma;
    }

    /// <summary>How far from the diagonal the covariance reaches.</summary>
    private int Band(double[] covariance)
    {
        int band = 0;
        for (int i = 0; i < count; i++)
        {
            for (int j = i + band + 1; j < count; j++)
            {
                if (covariance[(i * count) + j] != 0)
                    band = j - i;
            }
        }

        return band;
    }
}
