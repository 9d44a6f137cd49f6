namespace BosFlow.Registration;

/// <summary>The way back from a frame to the reference.</summary>
internal static class InverseMotion
{
    private const int MostRounds = 20;
    private const double Near = 1e-5;

    /// <summary>Position in the reference of a point of the frame: p with p + motion(p) = (x, y), by repeated substitution, which contracts by the motion's largest derivative.</summary>
    /// <param name="motion">From the reference to the frame.</param>
    /// <param name="x">Column in the frame, px.</param>
    /// <param name="y">Row in the frame, px.</param>
    public static (double X, double Y) Of(IPictureMotion motion, double x, double y)
    {
        (double px, double py) = (x, y);
        for (int round = 0; round < MostRounds; round++)
        {
            (double u, double v) = motion.DisplacementAt(px, py);
            double moved = Math.Max(Math.Abs(x - u - px), Math.Abs(y - v - py));
            (px, py) = (x - u, y - v);
            if (moved < Near)
                break;
        }

        return (px, py);
    }
}
