namespace BosFlow.Registration;

/// <summary>
/// Moves points to their centroid and scales them to an RMS distance of the square root of 2, so that the normal equations of
/// every motion model are well conditioned (Hartley 1997, IEEE TPAMI 19:580; from memory).
/// </summary>
internal readonly record struct PointScaling(double CentreX, double CentreY, double Scale)
{
    public static PointScaling Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        double sumX = 0;
        double sumY = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sumX += x[i];
            sumY += y[i];
        }

        double centreX = sumX / x.Length;
        double centreY = sumY / x.Length;
        double square = 0;
        for (int i = 0; i < x.Length; i++)
            square += ((x[i] - centreX) * (x[i] - centreX)) + ((y[i] - centreY) * (y[i] - centreY));
        double scale = Math.Sqrt(square / (2 * x.Length));
        return new PointScaling(centreX, centreY, scale > 0 ? scale : 1);
    }

    public double X(double x) => (x - CentreX) / Scale;

    public double Y(double y) => (y - CentreY) / Scale;

    /// <summary>Turns a projective matrix between scaled points (row-major, 9 entries) into a motion between pixels: T^-1 H T.</summary>
    public PlanarMotion ToPixels(ReadOnlySpan<double> h)
    {
        double s = Scale;
        double g31 = h[6] / s;
        double g32 = h[7] / s;
        double g33 = h[8] - (g31 * CentreX) - (g32 * CentreY);
        double a13 = (s * h[2]) - (h[0] * CentreX) - (h[1] * CentreY);
        double a23 = (s * h[5]) - (h[3] * CentreX) - (h[4] * CentreY);
        return new PlanarMotion(
            (h[0] + (CentreX * g31)) / g33,
            (h[1] + (CentreX * g32)) / g33,
            (a13 + (CentreX * g33)) / g33,
            (h[3] + (CentreY * g31)) / g33,
            (h[4] + (CentreY * g32)) / g33,
            (a23 + (CentreY * g33)) / g33,
            g31 / g33,
            g32 / g33);
    }
}
