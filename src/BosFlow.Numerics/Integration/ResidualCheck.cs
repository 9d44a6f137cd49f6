namespace BosFlow.Numerics.Integration;

/// <summary>Residuals of the equations in units of their sigma: what shows that a measured field is no gradient.</summary>
internal static class ResidualCheck
{
    /// <summary>Sum of squared normalised residuals over all equations.</summary>
    public static double SumOfSquares(NormalEquations equations, double[] differenceX, double[] differenceY, double[] values, int columns)
    {
        double sum = 0;
        for (int i = 0; i < values.Length; i++)
            sum += Squared(equations.AlongX, differenceX, values, i, 1) + Squared(equations.AlongY, differenceY, values, i, columns);
        return sum;
    }

    /// <summary>Number of equations minus number of values found from them; the constant of a free part is not found.</summary>
    public static int Excess(NormalEquations equations, Parts parts)
    {
        int count = parts.IsAnchored.Count(anchored => !anchored);
        for (int i = 0; i < parts.Part.Length; i++)
        {
            count += equations.AlongX.Weight[i] > 0 ? 1 : 0;
            count += equations.AlongY.Weight[i] > 0 ? 1 : 0;
            count -= parts.Part[i] >= 0 && !equations.IsKnown(i) ? 1 : 0;
        }

        return count;
    }

    /// <summary>Root mean square over the equations of each node, with the same allowance for the excess as the overall figure.</summary>
    public static double[] Map(NormalEquations equations, double[] differenceX, double[] differenceY, double[] values, int columns, int excess)
    {
        int total = equations.AlongX.Weight.Count(weight => weight > 0) + equations.AlongY.Weight.Count(weight => weight > 0);
        double[] sum = new double[values.Length];
        int[] count = new int[values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            Add(equations.AlongX, differenceX, i, 1);
            Add(equations.AlongY, differenceY, i, columns);
        }

        for (int i = 0; i < sum.Length; i++)
            sum[i] = count[i] > 0 && excess > 0 ? Math.Sqrt(sum[i] / count[i] * total / excess) : double.NaN;
        return sum;

        void Add(EdgeEquations axis, double[] difference, int i, int stride)
        {
            if (axis.Weight[i] == 0)
                return;
            double squared = Squared(axis, difference, values, i, stride);
            sum[i] += squared;
            sum[i + stride] += squared;
            count[i]++;
            count[i + stride]++;
        }
    }

    private static double Squared(EdgeEquations axis, double[] difference, double[] values, int i, int stride)
    {
        if (axis.Weight[i] == 0)
            return 0;
        double residual = values[i + stride] - values[i] - difference[i];
        return axis.Weight[i] * residual * residual;
    }
}
