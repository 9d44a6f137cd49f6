namespace BosFlow.Synthesis;

/// <summary>A Gaussian blob or stripe of another density: rho - rho0 = excess exp(-q^2 / a^2), q the distance from the centre, or from the stripe's middle line.</summary>
/// <param name="CentreX">x of the centre, or of a point on the middle line, m.</param>
/// <param name="CentreY">y (down) likewise, m.</param>
/// <param name="HalfWidth">a: distance at which the excess is down to 1/e, m, greater than 0.</param>
/// <param name="Excess">rho - rho0 at the centre, kg/m3; negative for hot gas.</param>
/// <param name="StripeDegrees">Direction along which a stripe does not change, degrees counter-clockwise as seen on the picture; null = a round blob.</param>
public sealed record GaussianDensity(double CentreX, double CentreY, double HalfWidth, double Excess, double? StripeDegrees) : IDensityProfile
{
    /// <inheritdoc/>
    public DensitySample At(double x, double y)
    {
        double dx = x - CentreX;
        double dy = y - CentreY;
        if (StripeDegrees is double degrees)
        {
            (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(degrees));
            // The middle line runs along (cosine, -sine) as y is down; what is left is the way across.
            double along = (dx * cosine) - (dy * sine);
            dx -= along * cosine;
            dy += along * sine;
        }

        double square = HalfWidth * HalfWidth;
        double excess = Excess * Math.Exp(-((dx * dx) + (dy * dy)) / square);
        double slope = -2 * excess / square;
        return new DensitySample(excess, slope * dx, slope * dy);
    }
}
