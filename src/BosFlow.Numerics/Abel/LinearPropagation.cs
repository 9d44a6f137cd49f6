namespace BosFlow.Numerics.Abel;

/// <summary>Propagation of uncertainty through a matrix.</summary>
internal static class LinearPropagation
{
    /// <summary>D C D^T, row-major, rows * rows.</summary>
    public static double[] Covariance(ReadOnlySpan<double> matrix, int rows, int columns, ReadOnlySpan<double> dataCovariance)
    {
        double[] half = new double[rows * columns];
        for (int i = 0; i < rows; i++)
        {
            Span<double> target = half.AsSpan(i * columns, columns);
            for (int k = 0; k < columns; k++)
            {
                double weight = matrix[(i * columns) + k];
                ReadOnlySpan<double> source = dataCovariance.Slice(k * columns, columns);
                for (int j = 0; weight != 0 && j < columns; j++)
                    target[j] += weight * source[j];
            }
        }

        double[] covariance = new double[rows * rows];
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < rows; j++)
            {
                double sum = 0;
                for (int k = 0; k < columns; k++)
                    sum += half[(i * columns) + k] * matrix[(j * columns) + k];
                covariance[(i * rows) + j] = sum;
            }
        }

        return covariance;
    }

    /// <summary>Roots of the diagonal of D diag(sigma^2) D^T.</summary>
    public static double[] Sigma(ReadOnlySpan<double> matrix, int rows, int columns, ReadOnlySpan<double> dataSigma)
    {
        double[] sigma = new double[rows];
        for (int i = 0; i < rows; i++)
        {
            double sum = 0;
            for (int j = 0; j < columns; j++)
            {
                double weight = matrix[(i * columns) + j];
                double term = weight == 0 ? 0 : weight * dataSigma[j];
                sum += term * term;
            }

            sigma[i] = Math.Sqrt(sum);
        }

        return sigma;
    }
}
