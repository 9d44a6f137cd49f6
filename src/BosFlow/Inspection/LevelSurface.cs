using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Inspection;

/// <summary>An even change of light over the picture: a polynomial of two variables, fitted by least squares.</summary>
internal sealed class LevelSurface
{
    private readonly Vector<double> coefficients;
    private readonly int order;
    private readonly double width;
    private readonly double height;

    private LevelSurface(Vector<double> coefficients, int order, double width, double height, double rms)
    {
        this.coefficients = coefficients;
        this.order = order;
        this.width = width;
        this.height = height;
        Rms = rms;
    }

    /// <summary>Weighted RMS by which the readings miss the surface, corrected for the number of terms; part of full scale.</summary>
    public double Rms { get; }

    /// <summary>Number of terms of an order: 1, 3, 6, 10.</summary>
    public static int Terms(int order) => (order + 1) * (order + 2) / 2;

    /// <summary>Fits a surface of the highest order up to a limit for which there are twice as many readings as terms.</summary>
    /// <param name="readings">Column, row (px), value, weight (in proportion to the inverse variance); at least one.</param>
    /// <param name="highestOrder">Highest order.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    public static LevelSurface Fit(IReadOnlyList<(double X, double Y, double Value, double Weight)> readings, int highestOrder, int width, int height)
    {
        int order = highestOrder;
        while (order > 0 && readings.Count < 2 * Terms(order))
            order--;
        Matrix<double> matrix = Matrix<double>.Build.DenseOfRowArrays(readings.Select(reading => Powers(reading.X / width, reading.Y / height, order)));
        Vector<double> values = Vector<double>.Build.DenseOfEnumerable(readings.Select(reading => reading.Value));
        Vector<double> roots = Vector<double>.Build.DenseOfEnumerable(readings.Select(reading => Math.Sqrt(reading.Weight)));
        // Readings on two lines or one leave terms open: the shortest solution keeps those at zero.
        Vector<double> coefficients = Matrix<double>.Build.DiagonalOfDiagonalVector(roots).Multiply(matrix).PseudoInverse() * values.PointwiseMultiply(roots);
        Vector<double> misses = ((matrix * coefficients) - values).PointwiseMultiply(roots);
        double freedom = (double)Math.Max(1, readings.Count - Terms(order)) / readings.Count;
        double rms = Math.Sqrt(misses.DotProduct(misses) / readings.Sum(reading => reading.Weight) / freedom);
        return new LevelSurface(coefficients, order, width, height, rms);
    }

    /// <summary>Value at a place.</summary>
    /// <param name="x">Column, px.</param>
    /// <param name="y">Row, px.</param>
    public double At(double x, double y)
    {
        double u = (2 * x / width) - 1;
        double v = (2 * y / height) - 1;
        double sum = 0;
        int term = 0;
        double powerY = 1;
        for (int j = 0; j <= order; j++)
        {
            double power = powerY;
            for (int i = 0; i + j <= order; i++)
            {
                sum += coefficients[term++] * power;
                power *= u;
            }

            powerY *= v;
        }

        return sum;
    }

    private static double[] Powers(double x, double y, int order)
    {
        double u = (2 * x) - 1;
        double v = (2 * y) - 1;
        double[] powers = new double[Terms(order)];
        int term = 0;
        for (int j = 0; j <= order; j++)
        {
            for (int i = 0; i + j <= order; i++)
                powers[term++] = Math.Pow(u, i) * Math.Pow(v, j);
        }

        return powers;
    }
}
