namespace BosFlow.Camera;

/// <summary>A camera with square pixels in front of a printed plane whose printer may have stretched it.</summary>
/// <remarks>
/// A point (x, y) of the plane lies at P = R (s_x (x - x0), s_y (y - y0), 0) + t before the camera, z along the view;
/// its picture is f P_x / P_z, f P_y / P_z from the centre, with one radial term of the lens (<see cref="PlaneMap"/>).
/// Source: the pinhole camera of any textbook of photogrammetry; R from the axis and angle by Rodrigues' formula.
/// </remarks>
public sealed record PlaneCamera
{
    /// <summary>Focal length, px.</summary>
    public required double FocalPixels { get; init; }

    /// <summary>Column of the lens's centre, px.</summary>
    public required double CentreX { get; init; }

    /// <summary>Row of the lens's centre, px.</summary>
    public required double CentreY { get; init; }

    /// <summary>Axis of the plane's rotation times its angle, rad.</summary>
    public (double X, double Y, double Z) Rotation { get; init; }

    /// <summary>Point of the plane that <see cref="Position"/> speaks of, m.</summary>
    public (double X, double Y) Origin { get; init; }

    /// <summary>Where that point lies before the camera, m.</summary>
    public required (double X, double Y, double Z) Position { get; init; }

    /// <summary>Printed length over nominal length along x, 1.</summary>
    public double PrintScaleX { get; init; } = 1;

    /// <summary>Printed length over nominal length along y, 1.</summary>
    public double PrintScaleY { get; init; } = 1;

    /// <summary>Radial term of the lens at <see cref="Radius"/>, 1.</summary>
    public double Radial { get; init; }

    /// <summary>Distance from the centre at which <see cref="Radial"/> holds, px.</summary>
    public double Radius { get; init; } = 1;

    /// <summary>Angle between the line of sight and the plane's normal, rad.</summary>
    public double TiltRadians => Math.Acos(Math.Clamp(RotationMatrix()[8], -1, 1));

    /// <summary>The map from plane to picture.</summary>
    public PlaneMap ToMap()
    {
        double[] r = RotationMatrix();
        (double X, double Y, double One) Row(int i, double position, double factor)
        {
            double x = factor * r[3 * i] * PrintScaleX;
            double y = factor * r[(3 * i) + 1] * PrintScaleY;
            return (x, y, (factor * position) - (x * Origin.X) - (y * Origin.Y));
        }

        return new PlaneMap
        {
            Row1 = Row(0, Position.X, FocalPixels),
            Row2 = Row(1, Position.Y, FocalPixels),
            Row3 = Row(2, Position.Z, 1),
            CentreX = CentreX,
            CentreY = CentreY,
            Radial = Radial,
            Radius = Radius,
        };
    }

    /// <summary>R, row-major, 9 entries.</summary>
    internal double[] RotationMatrix()
    {
        (double x, double y, double z) = Rotation;
        double angle = Math.Sqrt((x * x) + (y * y) + (z * z));
        // sin(a)/a and (1 - cos(a))/a^2 by their series where the quotient would lose digits.
        double s = angle < 1e-4 ? 1 - (angle * angle / 6) : Math.Sin(angle) / angle;
        double c = angle < 1e-4 ? 0.5 - (angle * angle / 24) : (1 - Math.Cos(angle)) / (angle * angle);
        return
        [
            1 - (c * ((y * y) + (z * z))), (c * x * y) - (s * z), (c * x * z) + (s * y),
            (c * x * y) + (s * z), 1 - (c * ((x * x) + (z * z))), (c * y * z) - (s * x),
            (c * x * z) - (s * y), (c * y * z) + (s * x), 1 - (c * ((x * x) + (y * y))),
        ];
    }
}
