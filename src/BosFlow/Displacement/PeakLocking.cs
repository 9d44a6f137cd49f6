namespace BosFlow.Displacement;

/// <summary>Whether displacements are drawn towards whole pixels because dots are too small for the pixels.</summary>
public static class PeakLocking
{
    /// <summary>Dots that appear smaller than this lock, px: images of 2 px on a dense board, of 1.3 px thrown at random with the width of the pixel. Two pixels are common practice (no source).</summary>
    public const double SmallestDotPixels = 1.8;

    /// <summary>A share of the vectors near whole pixels that no smooth displacement gives: see <see cref="Strength"/>.</summary>
    public const double LockedStrength = 0.3;

    private const int FewestVectors = 200;
    private const double SmallestSpread = 1;

    /// <summary>How strongly the fractions of displacements crowd at whole pixels: mean of cos(2 pi u) less that of a smooth distribution, which is 0.</summary>
    /// <param name="displacements">One component, px; NaN is left out.</param>
    /// <returns>
    /// -1 to 1, 1 when all lie at whole pixels; NaN where the displacements beyond half a pixel are fewer than 200 or spread over less than one pixel (standard deviation), so that their fractions say nothing. Displacements
    /// drawn towards whole pixels by a wave of the amplitude B have about pi B (derived: their density is 1 / (1 - 2 pi B cos(2 pi u)) to first order); 0.3 are a tenth of a pixel.
    /// </returns>
    public static double Strength(ReadOnlySpan<float> displacements)
    {
        int count = 0;
        double sum = 0, squares = 0, cosines = 0;
        foreach (float u in displacements)
        {
            if (!(Math.Abs(u) > 0.5))
                continue;
            count++;
            sum += u;
            squares += (double)u * u;
            cosines += Math.Cos(2 * Math.PI * u);
        }

        if (count < FewestVectors || (squares / count) - (sum / count * (sum / count)) < SmallestSpread * SmallestSpread)
            return double.NaN;
        return cosines / count;
    }
}
