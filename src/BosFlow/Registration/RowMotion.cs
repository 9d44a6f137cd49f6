namespace BosFlow.Registration;

/// <summary>The motion of a picture that is read row by row; see <see cref="RowModel"/>.</summary>
public sealed class RowMotion : IPictureMotion
{
    private readonly double[] u;
    private readonly double[] v;

    /// <summary>Takes fitted coefficients.</summary>
    /// <param name="model">The model.</param>
    /// <param name="u">Coefficients of u, px: the shift's, then the stretch's at half a width from the middle.</param>
    /// <param name="v">Coefficients of v, px: the shift's, then the turn's.</param>
    /// <exception cref="ArgumentException">Their number does not fit the model.</exception>
    public RowMotion(RowModel model, IReadOnlyList<double> u, IReadOnlyList<double> v)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(u);
        ArgumentNullException.ThrowIfNull(v);
        if (u.Count != model.Unknowns || v.Count != model.Unknowns)
            throw new ArgumentException($"The model has {model.Unknowns} coefficients for each component, not {u.Count} and {v.Count}.", nameof(u));
        Model = model;
        this.u = [.. u];
        this.v = [.. v];
        Planar = NearestSimilarity();
    }

    /// <summary>The model.</summary>
    public RowModel Model { get; }

    /// <summary>Coefficients of u, px.</summary>
    public IReadOnlyList<double> U => u;

    /// <summary>Coefficients of v, px.</summary>
    public IReadOnlyList<double> V => v;

    /// <inheritdoc/>
    public PlanarMotion Planar { get; }

    /// <inheritdoc/>
    public (double U, double V) DisplacementAt(double x, double y)
    {
        Span<double> weights = stackalloc double[RowBasis.Support];
        int first = Model.Shifts.At(y, weights);
        (double shiftU, double shiftV) = Sum(weights, first);
        if (!Model.HasTurn)
            return (shiftU, shiftV);
        int turns = Model.Shifts.Count;
        (double stretch, double turn) = Model.TurnsByRow ? Sum(weights, turns + first) : (u[turns], v[turns]);
        double across = Model.Across(x);
        return (shiftU + (stretch * across), shiftV + (turn * across));
    }

    /// <summary>Change of the displacement from row to row.</summary>
    /// <param name="x">Column in the reference, px.</param>
    /// <param name="y">Row in the reference, px.</param>
    /// <returns>Derivative of u and of v by y, px/px.</returns>
    public (double U, double V) SlopeAt(double x, double y)
    {
        (double belowU, double belowV) = DisplacementAt(x, y + 0.5);
        (double aboveU, double aboveV) = DisplacementAt(x, y - 0.5);
        return (belowU - aboveU, belowV - aboveV);
    }

    /// <summary>Mean of several motions of one model.</summary>
    /// <param name="motions">The motions.</param>
    /// <param name="count">Number to divide by: motions that are zero by definition may be left out of the list.</param>
    /// <returns>Null of none.</returns>
    public static RowMotion? Mean(IReadOnlyList<RowMotion> motions, int count)
    {
        ArgumentNullException.ThrowIfNull(motions);
        if (motions.Count == 0)
            return null;
        RowModel model = motions[0].Model;
        double[] Mean(Func<RowMotion, double[]> of) => [.. Enumerable.Range(0, model.Unknowns).Select(i => motions.Sum(motion => of(motion)[i]) / count)];
        return new RowMotion(model, Mean(motion => motion.u), Mean(motion => motion.v));
    }

    private (double U, double V) Sum(ReadOnlySpan<double> weights, int first)
    {
        double sumU = 0, sumV = 0;
        for (int i = 0; i < RowBasis.Support; i++)
        {
            sumU += weights[i] * u[first + i];
            sumV += weights[i] * v[first + i];
        }

        return (sumU, sumV);
    }

    // Least squares over a mesh of the picture; what rows do beyond it is not seen in it.
    private PlanarMotion NearestSimilarity()
    {
        const int Mesh = 17;
        double height = Model.Shifts.Height;
        double centreX = (Model.Width - 1) / 2.0;
        double centreY = (height - 1) / 2;
        double meanU = 0, meanV = 0, stretch = 0, turn = 0, lever = 0;
        for (int i = 0; i < Mesh; i++)
        {
            for (int j = 0; j < Mesh; j++)
            {
                double x = Model.Width * (((i + 0.5) / Mesh) - 0.5);
                double y = height * (((j + 0.5) / Mesh) - 0.5);
                (double du, double dv) = DisplacementAt(centreX + x, centreY + y);
                meanU += du / (Mesh * Mesh);
                meanV += dv / (Mesh * Mesh);
                stretch += (x * du) + (y * dv);
                turn += (x * dv) - (y * du);
                lever += (x * x) + (y * y);
            }
        }

        if (!Model.HasTurn)
            return PlanarMotion.Shift(meanU, meanV);
        double c = 1 + (stretch / lever);
        double s = turn / lever;
        return new PlanarMotion(c, -s, meanU + centreX - (c * centreX) + (s * centreY), s, c, meanV + centreY - (s * centreX) - (c * centreY), 0, 0);
    }
}
