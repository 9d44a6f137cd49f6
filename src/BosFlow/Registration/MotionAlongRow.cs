namespace BosFlow.Registration;

/// <summary>A motion at every pixel of a piece of a row.</summary>
internal static class MotionAlongRow
{
    // Over so few pixels what a lens does to a shift is a parabola to a millionth of a pixel.
    private const int PiecePixels = 32;

    /// <summary>Fills in the displacements.</summary>
    /// <param name="motion">The motion. One through a lens is evaluated three times a piece, since every time costs an iteration.</param>
    /// <param name="left">Column of the first pixel, px.</param>
    /// <param name="y">The row, px.</param>
    /// <param name="u">Displacements to the right, px; one a pixel, overwritten.</param>
    /// <param name="v">Displacements down, px; as many.</param>
    public static void Fill(IPictureMotion motion, int left, int y, Span<double> u, Span<double> v)
    {
        if (motion is LensedMotion)
        {
            for (int start = 0; start < u.Length; start += PiecePixels)
            {
                int count = Math.Min(PiecePixels, u.Length - start);
                Parabola(motion, left + start, y, u.Slice(start, count), v.Slice(start, count));
            }

            return;
        }

        for (int i = 0; i < u.Length; i++)
            (u[i], v[i]) = motion.DisplacementAt(left + i, y);
    }

    private static void Parabola(IPictureMotion motion, int left, int y, Span<double> u, Span<double> v)
    {
        double half = (PiecePixels - 1) / 2.0;
        (double u0, double v0) = motion.DisplacementAt(left, y);
        (double u1, double v1) = motion.DisplacementAt(left + half, y);
        (double u2, double v2) = motion.DisplacementAt(left + (2 * half), y);
        for (int i = 0; i < u.Length; i++)
        {
            double t = (i / half) - 1;
            double before = t * (t - 1) / 2;
            double middle = 1 - (t * t);
            double after = t * (t + 1) / 2;
            u[i] = (before * u0) + (middle * u1) + (after * u2);
            v[i] = (before * v0) + (middle * v1) + (after * v2);
        }
    }
}
