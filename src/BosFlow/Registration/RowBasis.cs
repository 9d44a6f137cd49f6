namespace BosFlow.Registration;

/// <summary>Uniform cubic B-splines over the rows of a picture: smooth functions of the time at which a row was read.</summary>
/// <param name="Height">Height of the picture, px, at least 2.</param>
/// <param name="Intervals">Intervals between knots, at least 1.</param>
/// <remarks>Source: the cardinal cubic B-spline (de Boor 1978, A Practical Guide to Splines; formula from memory). Constants and straight lines are in its span.</remarks>
public sealed record RowBasis(int Height, int Intervals)
{
    /// <summary>Functions that are not zero at one row.</summary>
    public const int Support = 4;

    /// <summary>Number of functions.</summary>
    public int Count => Intervals + Support - 1;

    /// <summary>Distance between knots, px.</summary>
    public double Spacing => (Height - 1.0) / Intervals;

    /// <summary>The functions that are not zero at a row. Rows a little outside the picture continue the outermost cubic.</summary>
    /// <param name="row">Row, px.</param>
    /// <param name="weights">Room for <see cref="Support"/> values; they sum to 1.</param>
    /// <returns>Number of the first of them.</returns>
    public int At(double row, Span<double> weights)
    {
        double position = row / Spacing;
        int cell = Math.Clamp((int)Math.Floor(position), 0, Intervals - 1);
        double t = position - cell;
        double s = 1 - t;
        weights[0] = s * s * s / 6;
        weights[1] = ((3 * t * t * t) - (6 * t * t) + 4) / 6;
        weights[2] = ((3 * s * s * s) - (6 * s * s) + 4) / 6;
        weights[3] = t * t * t / 6;
        return cell;
    }

    /// <summary>Value of a spline.</summary>
    /// <param name="coefficients"><see cref="Count"/> coefficients.</param>
    /// <param name="row">Row, px.</param>
    public double Value(ReadOnlySpan<double> coefficients, double row)
    {
        Span<double> weights = stackalloc double[Support];
        int first = At(row, weights);
        double sum = 0;
        for (int i = 0; i < Support; i++)
            sum += weights[i] * coefficients[first + i];
        return sum;
    }
}
