namespace BosFlow.Camera;

/// <summary>
/// Where points of a plane are seen in a picture: a projective map, then one radial term of the lens. Plane in m, x to the right and
/// y down as on a board; picture in px, pixel centres at integers. Thread-safe.
/// </summary>
/// <remarks>
/// [a b w]^T = H [x y 1]^T; p = (a / w, b / w), px from the lens's centre; picture = centre + p (1 + k |p|^2 / R^2).
/// </remarks>
public sealed record PlaneMap
{
    private const int MostSteps = 50;

    /// <summary>Row 1 of H: px/m, px/m, px.</summary>
    public required (double X, double Y, double One) Row1 { get; init; }

    /// <summary>Row 2 of H: px/m, px/m, px.</summary>
    public required (double X, double Y, double One) Row2 { get; init; }

    /// <summary>Row 3 of H: 1/m, 1/m, 1.</summary>
    public required (double X, double Y, double One) Row3 { get; init; }

    /// <summary>Column of the lens's centre, px.</summary>
    public double CentreX { get; init; }

    /// <summary>Row of the lens's centre, px.</summary>
    public double CentreY { get; init; }

    /// <summary>R: distance from the centre at which <see cref="Radial"/> holds, px, greater than 0.</summary>
    public double Radius { get; init; } = 1;

    /// <summary>k: share by which a point at distance R from the centre is moved outward by the lens, 1.</summary>
    public double Radial { get; init; }

    /// <summary>Where a point of the plane is seen.</summary>
    /// <param name="x">x on the plane, m.</param>
    /// <param name="y">y on the plane, m.</param>
    /// <returns>Column and row, px.</returns>
    public (double X, double Y) ToPicture(double x, double y)
    {
        double w = Dot(Row3, x, y);
        double a = Dot(Row1, x, y) / w;
        double b = Dot(Row2, x, y) / w;
        double factor = 1 + (Radial * ((a * a) + (b * b)) / (Radius * Radius));
        return (CentreX + (a * factor), CentreY + (b * factor));
    }

    /// <summary>Scale at a point of the plane: how its picture moves as the point moves.</summary>
    /// <param name="x">x on the plane, m.</param>
    /// <param name="y">y on the plane, m.</param>
    /// <returns>Derivatives of column and row along x and y, px/m.</returns>
    public (double ColumnX, double ColumnY, double RowX, double RowY) ScaleAt(double x, double y)
    {
        double w = Dot(Row3, x, y);
        double a = Dot(Row1, x, y) / w;
        double b = Dot(Row2, x, y) / w;
        double ax = (Row1.X - (a * Row3.X)) / w;
        double ay = (Row1.Y - (a * Row3.Y)) / w;
        double bx = (Row2.X - (b * Row3.X)) / w;
        double by = (Row2.Y - (b * Row3.Y)) / w;
        double k = Radial / (Radius * Radius);
        double factor = 1 + (k * ((a * a) + (b * b)));
        double slopeX = 2 * k * ((a * ax) + (b * bx));
        double slopeY = 2 * k * ((a * ay) + (b * by));
        return ((ax * factor) + (a * slopeX), (ay * factor) + (a * slopeY), (bx * factor) + (b * slopeX), (by * factor) + (b * slopeY));
    }

    /// <summary>Area in the picture of a unit area around a point of the plane, px2/m2.</summary>
    /// <param name="x">x on the plane, m.</param>
    /// <param name="y">y on the plane, m.</param>
    public double AreaScaleAt(double x, double y)
    {
        (double columnX, double columnY, double rowX, double rowY) = ScaleAt(x, y);
        return Math.Abs((columnX * rowY) - (columnY * rowX));
    }

    /// <summary>Which point of the plane is seen at a place of the picture.</summary>
    /// <param name="column">Column, px.</param>
    /// <param name="row">Row, px.</param>
    /// <returns>x and y on the plane, m; NaN where the lens term folds the picture.</returns>
    public (double X, double Y) ToPlane(double column, double row)
    {
        (double a, double b) = WithoutLens(column - CentreX, row - CentreY);
        // a w = Row1 . p and b w = Row2 . p are two linear equations for the point.
        double m11 = Row1.X - (a * Row3.X);
        double m12 = Row1.Y - (a * Row3.Y);
        double m21 = Row2.X - (b * Row3.X);
        double m22 = Row2.Y - (b * Row3.Y);
        double r1 = (a * Row3.One) - Row1.One;
        double r2 = (b * Row3.One) - Row2.One;
        double determinant = (m11 * m22) - (m12 * m21);
        return (((r1 * m22) - (r2 * m12)) / determinant, ((r2 * m11) - (r1 * m21)) / determinant);
    }

    private (double A, double B) WithoutLens(double column, double row)
    {
        if (Radial == 0)
            return (column, row);
        double distance = Math.Sqrt((column * column) + (row * row)) / Radius;
        double radius = distance;
        for (int i = 0; i < MostSteps; i++)
        {
            double slope = 1 + (3 * Radial * radius * radius);
            if (!(slope > 0))
                return (double.NaN, double.NaN);
            double step = ((radius * (1 + (Radial * radius * radius))) - distance) / slope;
            radius -= step;
            if (Math.Abs(step) < 1e-14)
                break;
        }

        double factor = 1 + (Radial * radius * radius);
        return (column / factor, row / factor);
    }

    private static double Dot((double X, double Y, double One) row, double x, double y) => (row.X * x) + (row.Y * y) + row.One;
}
