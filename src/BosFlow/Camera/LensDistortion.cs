namespace BosFlow.Camera;

/// <summary>How far a lens moves the corner of the picture that it moves most.</summary>
/// <param name="Pixels">Distance between where the corner is and where an ideal lens would show it, px; NaN where it would show it nowhere.</param>
/// <param name="Share">Distance from the optical axis less the ideal distance, over the ideal distance, 1: negative for a barrel.</param>
public readonly record struct LensDistortion(double Pixels, double Share)
{
    /// <summary>The distortion at the corners.</summary>
    /// <param name="lens">The lens.</param>
    public static LensDistortion AtCorner(LensModel lens)
    {
        ArgumentNullException.ThrowIfNull(lens);
        LensParameters p = lens.Parameters;
        (double X, double Y)[] corners = [(0, 0), (p.Width - 1, 0), (0, p.Height - 1), (p.Width - 1, p.Height - 1)];
        return corners.Select(corner =>
        {
            (double x, double y) = lens.ToIdeal(corner.X, corner.Y);
            double ideal = double.Hypot(x - p.CentreX, y - p.CentreY);
            return new LensDistortion(double.Hypot(x - corner.X, y - corner.Y), (double.Hypot(corner.X - p.CentreX, corner.Y - p.CentreY) / ideal) - 1);
        }).MaxBy(distortion => double.IsNaN(distortion.Pixels) ? double.PositiveInfinity : distortion.Pixels);
    }
}
