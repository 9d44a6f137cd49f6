namespace BosFlow.Camera;

/// <summary>
/// Where a lens puts what an ideal one would show elsewhere: maps between the picture as filmed and the ideal picture, both in px. Thread-safe.
/// </summary>
/// <remarks>
/// The ideal picture is the one of a pinhole with the same axis and square pixels of the focal length f = sqrt(fx fy), so that its centre keeps its
/// scale: X = cx + f x, Y = cy + f y for a ray of the slopes (x, y). The picture as filmed is (cx + fx x', cy + fy y') with (x', y') by the
/// family of the lens (<see cref="LensSlope"/>). Coordinates may lie outside the picture.
/// </remarks>
public sealed class LensModel
{
    private const int MostSteps = 60;
    private const double ConvergedPixels = 1e-10;

    private readonly double focal;
    private readonly LensSlope slope;

    /// <summary>Prepares the maps.</summary>
    /// <param name="parameters">The numbers of the lens.</param>
    /// <exception cref="ArgumentException">A focal length or a size is not greater than 0, or a number is not finite.</exception>
    public LensModel(LensParameters parameters)
    {
        ArgumentNullException.ThrowIfNull(parameters);
        if (!(parameters.FocalX > 0 && parameters.FocalY > 0) || parameters.Width < 1 || parameters.Height < 1)
            throw new ArgumentException("Focal lengths and the picture's size must be greater than 0.", nameof(parameters));
        double sum = parameters.FocalX + parameters.FocalY + parameters.CentreX + parameters.CentreY + parameters.Radial1 + parameters.Radial2
            + parameters.Radial3 + parameters.Radial4 + parameters.Tangential1 + parameters.Tangential2;
        if (!double.IsFinite(sum))
            throw new ArgumentException("Every number of a lens must be finite.", nameof(parameters));
        Parameters = parameters;
        focal = Math.Sqrt(parameters.FocalX * parameters.FocalY);
        slope = new LensSlope(parameters);
    }

    /// <summary>The numbers of the lens.</summary>
    public LensParameters Parameters { get; }

    /// <summary>Focal length of the ideal picture, px.</summary>
    public double IdealFocal => focal;

    /// <summary>Where a point of the ideal picture is seen.</summary>
    /// <param name="x">Column in the ideal picture, px.</param>
    /// <param name="y">Row in the ideal picture, px.</param>
    /// <returns>Column and row in the picture as filmed, px; NaN where the polynomial of the lens has turned back and means nothing.</returns>
    public (double X, double Y) ToPicture(double x, double y)
    {
        (double a, double b) = slope.Bend((x - Parameters.CentreX) / focal, (y - Parameters.CentreY) / focal);
        return (Parameters.CentreX + (Parameters.FocalX * a), Parameters.CentreY + (Parameters.FocalY * b));
    }

    /// <summary>How the picture of a point moves as the point moves in the ideal picture.</summary>
    /// <param name="x">Column in the ideal picture, px.</param>
    /// <param name="y">Row in the ideal picture, px.</param>
    /// <returns>Derivatives of the place in the picture as filmed; NaN where <see cref="ToPicture"/> is NaN.</returns>
    public LensSlopes SlopesAt(double x, double y)
    {
        LensSlopes s = slope.SlopesAt((x - Parameters.CentreX) / focal, (y - Parameters.CentreY) / focal);
        double scaleX = Parameters.FocalX / focal;
        double scaleY = Parameters.FocalY / focal;
        return new LensSlopes(scaleX * s.XX, scaleX * s.XY, scaleY * s.YX, scaleY * s.YY);
    }

    /// <summary>Where an ideal lens would show what is seen at a place.</summary>
    /// <param name="x">Column in the picture as filmed, px.</param>
    /// <param name="y">Row in the picture as filmed, px.</param>
    /// <returns>Column and row in the ideal picture, px, true to 1e-9 px; NaN where no point of the ideal picture is seen there.</returns>
    /// <remarks>
    /// Newton's iteration from the answer of the radial terms alone; a step across the radius where the lens turns back ends it.
    /// </remarks>
    public (double X, double Y) ToIdeal(double x, double y)
    {
        double targetX = (x - Parameters.CentreX) / Parameters.FocalX;
        double targetY = (y - Parameters.CentreY) / Parameters.FocalY;
        (double a, double b) = slope.Start(targetX, targetY);
        for (int step = 0; step < MostSteps; step++)
        {
            (double bentX, double bentY) = slope.Bend(a, b);
            LensSlopes back = slope.SlopesAt(a, b).Inverse();
            double missX = targetX - bentX;
            double missY = targetY - bentY;
            double stepX = (back.XX * missX) + (back.XY * missY);
            double stepY = (back.YX * missX) + (back.YY * missY);
            // Also true for NaN, which stands beyond the turning point.
            if (!(Math.Abs(stepX) < double.MaxValue && Math.Abs(stepY) < double.MaxValue))
                return (double.NaN, double.NaN);
            a += stepX;
            b += stepY;
            if (focal * double.Hypot(stepX, stepY) < ConvergedPixels * (1 + double.Hypot(a, b)))
                return slope.Covers(a, b) ? (Parameters.CentreX + (focal * a), Parameters.CentreY + (focal * b)) : (double.NaN, double.NaN);
        }

        return (double.NaN, double.NaN);
    }

    /// <summary>The displacement that an ideal lens would show.</summary>
    /// <param name="x">Column of the start in the picture as filmed, px.</param>
    /// <param name="y">Row of the start, px.</param>
    /// <param name="u">Displacement along x in the picture as filmed, px.</param>
    /// <param name="v">Displacement along y, px.</param>
    /// <returns>Start and displacement in the ideal picture, px; NaN where either end has no ideal place.</returns>
    public (double X, double Y, double U, double V) ToIdeal(double x, double y, double u, double v)
    {
        (double startX, double startY) = ToIdeal(x, y);
        (double endX, double endY) = ToIdeal(x + u, y + v);
        return (startX, startY, endX - startX, endY - startY);
    }
}
