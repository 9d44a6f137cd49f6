namespace BosFlow.Numerics.Abel;

/// <summary>Cubic B-splines in the radius, even about the axis, 0 at the outer radius: rows that turn coefficients 0 .. cells into values, or into slopes of the projection.</summary>
/// <remarks>
/// Equal cells. The coefficient before the axis equals that behind it (evenness); the one beyond the outer radius follows from a value of 0 there. B-splines: I. J. Schoenberg 1946, textbook formulas.
/// The slope of the projection of f with f(R) = 0 is G(y) = 2 y INT f'(r) dr / sqrt(r^2 - y^2): in a cell f' is a quadratic, and the integral has a closed form.
/// </remarks>
internal sealed class RadialSpline(int cells, double outerRadius)
{
    private readonly double width = outerRadius / cells;

    public int Coefficients => cells + 1;

    public double Width => width;

    /// <summary>Adds the weights of the coefficients in f(radius) to a row.</summary>
    public void AddValue(double radius, Span<double> row)
    {
        double position = Math.Abs(radius) / width;
        if (position >= cells)
            return;
        int cell = (int)position;
        double t = position - cell, s = 1 - t;
        Add(row, cell - 1, s * s * s / 6);
        Add(row, cell, ((3 * t * t * t) - (6 * t * t) + 4) / 6);
        Add(row, cell + 1, ((3 * s * s * s) - (6 * s * s) + 4) / 6);
        Add(row, cell + 2, t * t * t / 6);
    }

    /// <summary>Adds the weights of the coefficients in the slope of the projection at y to a row.</summary>
    public void AddSlope(double y, Span<double> row)
    {
        double distance = Math.Abs(y) / width, factor = 2 * Math.Sign(y) * distance;
        if (distance == 0)
            return;
        for (int cell = (int)distance; cell < cells; cell++)
        {
            (double constant, double linear, double square) = KernelIntegrals.Over(Math.Max(cell, distance), cell + 1, distance);
            // Integrals of 1, t, t^2 with t = r - cell; then the derivatives of the four pieces of a cubic B-spline.
            double one = constant, two = linear - (cell * constant), three = square - (2 * cell * linear) + ((double)cell * cell * constant);
            Add(row, cell - 1, factor * (-one + (2 * two) - three) / 2);
            Add(row, cell, factor * ((3 * three) - (4 * two)) / 2);
            Add(row, cell + 1, factor * (one + (2 * two) - (3 * three)) / 2);
            Add(row, cell + 2, factor * three / 2);
        }
    }

    /// <summary>Weights of the coefficients in f''(radius), inside a cell at the share t of its width.</summary>
    public void AddCurvature(int cell, double t, Span<double> row)
    {
        double scale = 1 / (width * width);
        Add(row, cell - 1, scale * (1 - t));
        Add(row, cell, scale * ((3 * t) - 2));
        Add(row, cell + 1, scale * (1 - (3 * t)));
        Add(row, cell + 2, scale * t);
    }

    private void Add(Span<double> row, int coefficient, double weight)
    {
        if (coefficient <= cells)
        {
            row[Math.Abs(coefficient)] += weight;
            return;
        }

        // f(R) = (a[cells - 1] + 4 a[cells] + a[cells + 1]) / 6 = 0.
        row[cells] -= 4 * weight;
        row[cells - 1] -= weight;
    }
}
