namespace BosFlow.Registration;

/// <summary>The motion of a picture that is read row by row; see <see cref="RowModel"/>.</summary>
/// <remarks>
/// A row of the reference that a turned camera sees across several rows of the frame shows what the camera did meanwhile: d(x, y) = m(y + t(x)) - m_ref(y + t(x)) + m_ref(y) with m the functions of the
/// model, m_ref those of the reference's own shake with its sign turned, and t(x) = r(y) X / (1 + b') the rows that the turn leads further (derived here; without m_ref nothing can be told of it, and t is 0). At a turn of 0.1 degrees in
/// 1000 px and vibration of 6 px at some hundred hertz this is some thousandths of a pixel, quadratic in X.
/// </remarks>
public sealed class RowMotion : IPictureMotion
{
    private readonly double[] u;
    private readonly double[] v;

    /// <summary>Takes fitted coefficients.</summary>
    /// <param name="model">The model.</param>
    /// <param name="u">Coefficients of u, px: the shift's, then the stretch's at half a width from the middle.</param>
    /// <param name="v">Coefficients of v, px: the shift's, then the turn's.</param>
    /// <param name="reference">How the rows of the flow-off frames lie against those of the reference in the mean, which is the reference's own shake with its sign turned; null = not known.</param>
    /// <exception cref="ArgumentException">Their number does not fit the model.</exception>
    public RowMotion(RowModel model, IReadOnlyList<double> u, IReadOnlyList<double> v, RowMotion? reference = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(u);
        ArgumentNullException.ThrowIfNull(v);
        if (u.Count != model.Unknowns || v.Count != model.Unknowns)
            throw new ArgumentException($"The model has {model.Unknowns} coefficients for each component, not {u.Count} and {v.Count}.", nameof(u));
        Model = model;
        this.u = [.. u];
        this.v = [.. v];
        Reference = reference;
        Planar = NearestSimilarity();
    }

    /// <summary>The model.</summary>
    public RowModel Model { get; }

    /// <summary>How the rows of the flow-off frames lie against those of the reference in the mean; null = not known.</summary>
    public RowMotion? Reference { get; }

    /// <summary>Coefficients of u, px.</summary>
    public IReadOnlyList<double> U => u;

    /// <summary>Coefficients of v, px.</summary>
    public IReadOnlyList<double> V => v;

    /// <inheritdoc/>
    public PlanarMotion Planar { get; }

    /// <inheritdoc/>
    /// <remarks>Behind a lens that bends, place and displacement are those of the ideal picture; NaN where the lens shows nothing.</remarks>
    public (double U, double V) DisplacementAt(double x, double y)
    {
        double row = Model.SensorRow(x, y);
        return At(row, Model.Across(x), Model.Below(y, row));
    }

    /// <summary>Change of the displacement from row to row of the sensor.</summary>
    /// <param name="x">Column in the reference, px.</param>
    /// <param name="y">Row in the reference, px.</param>
    /// <returns>Derivative of u and of v by the row, px/px.</returns>
    public (double U, double V) SlopeAt(double x, double y)
    {
        double row = Model.SensorRow(x, y);
        double across = Model.Across(x);
        double below = Model.Below(y, row);
        (double belowU, double belowV) = At(row + 0.5, across, below);
        (double aboveU, double aboveV) = At(row - 0.5, across, below);
        return (belowU - aboveU, belowV - aboveV);
    }

    /// <summary>Stretch and turn of a row of the sensor: what they add to u and v half a width from the middle, px.</summary>
    internal (double Stretch, double Turn) TurnsAt(double sensorRow)
    {
        Span<double> weights = stackalloc double[RowBasis.Support];
        return Model.HasTurn ? Turns(weights, Model.Shifts.At(sensorRow, weights)) : (0, 0);
    }

    /// <summary>The part of the displacement that <see cref="RowModel.Design"/> leaves out.</summary>
    internal (double U, double V) CoupledAt(double x, double y)
    {
        if (!Model.HasTurn || (Model.Lens is null && Reference is null))
            return (0, 0);
        double row = Model.SensorRow(x, y);
        double across = Model.Across(x);
        (double wholeU, double wholeV) = At(row, across, Model.Below(y, row));
        (double designU, double designV) = Straight(row, across, 0);
        return (wholeU - designU, wholeV - designV);
    }

    /// <summary>The same coefficients against a reference that was shaken.</summary>
    internal RowMotion Against(RowMotion? reference) => ReferenceEquals(reference, Reference) ? this : new RowMotion(Model, u, v, reference);

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

    private (double U, double V) At(double row, double across, double below)
    {
        if (Reference is null || !Model.HasTurn)
            return Straight(row, across, below);
        (_, double turn) = TurnsAt(row);
        double stretch = Straight(row + 0.5, 0, 0).V - Straight(row - 0.5, 0, 0).V;
        double further = row + (turn * across / (1 + stretch));
        (double u, double v) = Straight(further, across, below);
        (double hereU, double hereV) = Reference.Straight(row, across, below);
        (double thereU, double thereV) = Reference.Straight(further, across, below);
        return (u - thereU + hereU, v - thereV + hereV);
    }

    // A straight line in X.
    private (double U, double V) Straight(double row, double across, double below)
    {
        Span<double> weights = stackalloc double[RowBasis.Support];
        int first = Model.Shifts.At(row, weights);
        (double shiftU, double shiftV) = Sum(weights, first);
        if (!Model.HasTurn)
            return (shiftU, shiftV);
        (double stretch, double turn) = Turns(weights, first);
        return (shiftU + (stretch * across) - (turn * below), shiftV + (turn * across) + (stretch * below));
    }

    private (double Stretch, double Turn) Turns(ReadOnlySpan<double> weights, int first)
    {
        int turns = Model.Shifts.Count;
        return Model.TurnsByRow ? Sum(weights, turns + first) : (u[turns], v[turns]);
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
        int seen = 0;
        double meanU = 0, meanV = 0, stretch = 0, turn = 0, lever = 0;
        for (int i = 0; i < Mesh; i++)
        {
            for (int j = 0; j < Mesh; j++)
            {
                double x = Model.Width * (((i + 0.5) / Mesh) - 0.5);
                double y = height * (((j + 0.5) / Mesh) - 0.5);
                (double du, double dv) = DisplacementAt(centreX + x, centreY + y);
                if (!double.IsFinite(du + dv))
                    continue;
                seen++;
                meanU += du;
                meanV += dv;
                stretch += (x * du) + (y * dv);
                turn += (x * dv) - (y * du);
                lever += (x * x) + (y * y);
            }
        }

        (meanU, meanV) = (meanU / seen, meanV / seen);
        if (!Model.HasTurn)
            return PlanarMotion.Shift(meanU, meanV);
        double c = 1 + (stretch / lever);
        double s = turn / lever;
        return new PlanarMotion(c, -s, meanU + centreX - (c * centreX) + (s * centreY), s, c, meanV + centreY - (s * centreX) - (c * centreY), 0, 0);
    }
}
