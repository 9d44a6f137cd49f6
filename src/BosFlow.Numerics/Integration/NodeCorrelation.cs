namespace BosFlow.Numerics.Integration;

/// <summary>Correlation of errors along one axis of a grid: a symmetric matrix that depends on the distance alone.</summary>
internal sealed class NodeCorrelation
{
    private readonly double[] correlation;
    private readonly double[] factor;
    private readonly int length;
    private readonly int band;

    /// <summary>Factors the matrix (Cholesky, banded) for draws.</summary>
    /// <exception cref="ArgumentException">The values are no correlation: the matrix has a negative eigenvalue.</exception>
    public NodeCorrelation(double[] correlation, int length)
    {
        this.correlation = correlation;
        this.length = length;
        band = Math.Min(correlation.Length, length);
        factor = new double[length * band];
        const double Rounding = 1e-10;
        for (int i = 0; i < length; i++)
        {
            for (int j = Math.Max(0, i - band + 1); j <= i; j++)
            {
                double sum = correlation[i - j];
                for (int k = Math.Max(0, i - band + 1); k < j; k++)
                    sum -= Factor(i, k) * Factor(j, k);
                if (i > j)
                    factor[(i * band) + i - j] = Factor(j, j) > 0 ? sum / Factor(j, j) : 0;
                else if (sum > -Rounding)
                    factor[i * band] = sum > Rounding ? Math.Sqrt(sum) : 0;
                else
                    throw new ArgumentException($"The numbers {string.Join(", ", correlation)} cannot be a correlation by distance over {length} nodes: some sum of such errors would have a negative variance.");
            }
        }
    }

    /// <summary>Replaces independent numbers along lines by correlated ones, in place.</summary>
    /// <param name="plane">Row-major numbers.</param>
    /// <param name="stride">Distance of neighbours along the axis in the plane.</param>
    /// <param name="start">First entry of the line.</param>
    public void Colour(double[] plane, int start, int stride)
    {
        if (band == 1)
            return;
        for (int i = length - 1; i >= 0; i--)
        {
            double sum = 0;
            for (int j = Math.Max(0, i - band + 1); j <= i; j++)
                sum += Factor(i, j) * plane[start + (j * stride)];
            plane[start + (i * stride)] = sum;
        }
    }

    /// <summary>The matrix times a line, in place.</summary>
    public void Multiply(double[] plane, int start, int stride, double[] scratch)
    {
        if (band == 1)
            return;
        for (int i = 0; i < length; i++)
        {
            double sum = plane[start + (i * stride)];
            for (int m = 1; m < band; m++)
            {
                double before = i >= m ? plane[start + ((i - m) * stride)] : 0;
                double after = i + m < length ? plane[start + ((i + m) * stride)] : 0;
                sum += correlation[m] * (before + after);
            }

            scratch[i] = sum;
        }

        for (int i = 0; i < length; i++)
            plane[start + (i * stride)] = scratch[i];
    }

    private double Factor(int i, int j) => j <= i - band ? 0 : factor[(i * band) + i - j];
}
