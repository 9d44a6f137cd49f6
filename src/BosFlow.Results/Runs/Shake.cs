using BosFlow.Registration;

namespace BosFlow.Results.Runs;

/// <summary>A motion of the background in four plain numbers, taken at the middle of the picture.</summary>
/// <param name="U">Shift of the middle of the picture to the right, px.</param>
/// <param name="V">Shift of the middle of the picture downwards, px.</param>
/// <param name="RotationDegrees">Rotation, degrees counter-clockwise as seen on the picture.</param>
/// <param name="Scale">Magnification, 1 = none.</param>
internal readonly record struct Shake(double U, double V, double RotationDegrees, double Scale)
{
    /// <summary>Shift, rotation and scale of the motion's linearisation at the middle of a picture.</summary>
    public static Shake Of(PlanarMotion motion, int width, int height)
    {
        double x = (width - 1) / 2.0;
        double y = (height - 1) / 2.0;
        const double step = 0.5;
        (double u, double v) = motion.DisplacementAt(x, y);
        (double rightU, double rightV) = motion.DisplacementAt(x + step, y);
        (double leftU, double leftV) = motion.DisplacementAt(x - step, y);
        (double downU, double downV) = motion.DisplacementAt(x, y + step);
        (double upU, double upV) = motion.DisplacementAt(x, y - step);
        double a = 1 + rightU - leftU;
        double b = downU - upU;
        double c = rightV - leftV;
        double d = 1 + downV - upV;
        // Best rotation of a 2 x 2 matrix; y runs down, so a positive angle in px is clockwise on the picture.
        double clockwise = Math.Atan2(c - b, a + d);
        return new Shake(u, v, clockwise == 0 ? 0 : -clockwise * 180 / Math.PI, Math.Sqrt(Math.Abs((a * d) - (b * c))));
    }
}
