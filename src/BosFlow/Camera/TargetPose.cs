namespace BosFlow.Camera;

/// <summary>How a target lies before the camera: a point (x, y) of it is at R (x, y, 0) + t, z along the view.</summary>
/// <param name="Rotation">Axis of R times its angle, rad.</param>
/// <param name="Position">t, m.</param>
public readonly record struct TargetPose((double X, double Y, double Z) Rotation, (double X, double Y, double Z) Position)
{
    /// <summary>The target's normal.</summary>
    public (double X, double Y, double Z) Normal
    {
        get
        {
            double[] r = Matrix();
            return (r[2], r[5], r[8]);
        }
    }

    /// <summary>Where a point of the target is seen.</summary>
    /// <param name="lens">The lens.</param>
    /// <param name="x">x on the target, m.</param>
    /// <param name="y">y on the target, m.</param>
    /// <returns>Column and row, px; NaN behind the camera and where the lens shows nothing.</returns>
    public (double Column, double Row) Seen(LensModel lens, double x, double y)
    {
        ArgumentNullException.ThrowIfNull(lens);
        double[] r = Matrix();
        double z = (r[6] * x) + (r[7] * y) + Position.Z;
        if (!(z > 0))
            return (double.NaN, double.NaN);
        double slopeX = ((r[0] * x) + (r[1] * y) + Position.X) / z;
        double slopeY = ((r[3] * x) + (r[4] * y) + Position.Y) / z;
        return lens.ToPicture(lens.Parameters.CentreX + (lens.IdealFocal * slopeX), lens.Parameters.CentreY + (lens.IdealFocal * slopeY));
    }

    private double[] Matrix() => new PlaneCamera { FocalPixels = 1, CentreX = 0, CentreY = 0, Position = Position, Rotation = Rotation }.RotationMatrix();
}
