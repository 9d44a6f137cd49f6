namespace BosFlow.Synthesis;

/// <summary>
/// Index field of a free round jet with Gaussian profile in the flow plane: n - n0 = delta(s) exp(-r^2 / a(s)^2), a(s) = a0 + growth s,
/// delta(s) = delta0 a0 / a(s), s the distance from the nozzle along the axis, r the distance from the axis.
/// </summary>
/// <param name="NozzleX">x of the nozzle's centre, m, in the camera's axes.</param>
/// <param name="NozzleY">y of the nozzle's centre (down), m.</param>
/// <param name="NozzleZ">z of the axis: Z_A, m.</param>
/// <param name="DirectionDegrees">Direction of the jet, degrees counter-clockwise as seen on the picture; 90 = upward.</param>
/// <param name="HalfWidth">a0: 1/e half-width at the nozzle, m.</param>
/// <param name="Growth">da/ds, 1, 0 or more; round jets have about 0.13 (half-width at half height grows by 0.11, Chen and Rodi 1980, from memory).</param>
/// <param name="IndexExcess">delta0: n - n0 on the axis at the nozzle, 1; negative for hot gas.</param>
/// <remarks>
/// Decay as 1 / a keeps the heat flux of a jet whose velocity decays alike. The model is a test field with known truth, not a computation of a real jet.
/// </remarks>
public sealed record HotJet(double NozzleX, double NozzleY, double NozzleZ, double DirectionDegrees, double HalfWidth, double Growth, double IndexExcess)
{
    /// <summary>Unit vector of the axis in the picture's plane, y down.</summary>
    public (double X, double Y) Axis
    {
        get
        {
            (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(DirectionDegrees));
            return (cosine, -sine);
        }
    }

    /// <summary>1/e half-width at a distance from the nozzle, m.</summary>
    /// <param name="s">Distance along the axis, m; negative before the nozzle.</param>
    public double HalfWidthAt(double s) => HalfWidth + (Growth * s);

    /// <summary>Index excess on the axis at a distance from the nozzle, 1.</summary>
    /// <param name="s">Distance along the axis, m.</param>
    public double IndexExcessAt(double s) => IndexExcess * HalfWidth / HalfWidthAt(s);

    /// <summary>Distance along the axis and distance from it, both in the picture's plane.</summary>
    /// <param name="x">x, m.</param>
    /// <param name="y">y, m.</param>
    /// <returns>s along the axis; q to the right of the axis seen along it on the picture, m.</returns>
    public (double Along, double Across) Split(double x, double y)
    {
        (double ax, double ay) = Axis;
        double dx = x - NozzleX;
        double dy = y - NozzleY;
        return ((dx * ax) + (dy * ay), (dy * ax) - (dx * ay));
    }
}
