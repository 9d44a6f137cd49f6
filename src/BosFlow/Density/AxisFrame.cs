namespace BosFlow.Density;

/// <summary>Coordinates of the picture along an axis and to its right (looking along the axis, as seen on the picture), px.</summary>
/// <param name="X">x of the origin on the axis, px.</param>
/// <param name="Y">y of the origin, px.</param>
/// <param name="AlongX">x of the unit vector along the axis.</param>
/// <param name="AlongY">y (down) of the unit vector along the axis.</param>
internal readonly record struct AxisFrame(double X, double Y, double AlongX, double AlongY)
{
    /// <summary>x of the unit vector to the right of the axis.</summary>
    public double RightX => -AlongY;

    /// <summary>y of the unit vector to the right of the axis.</summary>
    public double RightY => AlongX;

    /// <summary>Direction of the axis, degrees counter-clockwise as seen on the picture.</summary>
    public double DirectionDegrees => double.RadiansToDegrees(Math.Atan2(-AlongY, AlongX));

    /// <summary>The frame through a point with a direction.</summary>
    /// <param name="x">x, px.</param>
    /// <param name="y">y, px.</param>
    /// <param name="directionDegrees">Degrees counter-clockwise as seen.</param>
    public static AxisFrame At(double x, double y, double directionDegrees)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(directionDegrees));
        return new AxisFrame(x, y, cosine, -sine);
    }

    /// <summary>The frame through two points, its origin at the first; null where they coincide.</summary>
    public static AxisFrame? Through(AxisLine line)
    {
        double x = line.X2 - line.X1;
        double y = line.Y2 - line.Y1;
        double length = Math.Sqrt((x * x) + (y * y));
        return length > 0 ? new AxisFrame(line.X1, line.Y1, x / length, y / length) : null;
    }

    /// <summary>Coordinates of a place.</summary>
    public (double Along, double Right) Split(double x, double y)
    {
        double dx = x - X;
        double dy = y - Y;
        return ((dx * AlongX) + (dy * AlongY), (dx * RightX) + (dy * RightY));
    }

    /// <summary>The place at some coordinates.</summary>
    public (double X, double Y) Place(double along, double right) =>
        (X + (along * AlongX) + (right * RightX), Y + (along * AlongY) + (right * RightY));

    /// <summary>The same axis moved to its right.</summary>
    public AxisFrame MovedRight(double pixels) => this with { X = X + (pixels * RightX), Y = Y + (pixels * RightY) };
}
