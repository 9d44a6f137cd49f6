namespace BosFlow.Numerics.Spectral;

/// <summary>Position of a correlation peak between whole pixels from three neighbouring values.</summary>
public static class ThreePointFit
{
    /// <summary>Three-point Gaussian fit.</summary>
    /// <param name="before">Value one pixel before the highest one.</param>
    /// <param name="top">Highest value.</param>
    /// <param name="after">Value one pixel after it.</param>
    /// <returns>Offset of the peak from the highest whole pixel, px, -1 to 1; 0 where the three values have no maximum or <paramref name="top"/> is not positive.</returns>
    /// <remarks>
    /// d = (ln R- - ln R+) / (2 ln R- - 4 ln R0 + 2 ln R+), exact for a Gaussian peak. Values that are not positive are
    /// raised to a thousandth of the top. Source: Willert and Gharib 1991, Exp. Fluids 10:181, doi 10.1007/BF00190388 (formula from memory).
    /// </remarks>
    public static double Gaussian(double before, double top, double after)
    {
        if (!(top > 0))
            return 0;
        double floor = top * 1e-3;
        double left = Math.Log(Math.Max(before, floor)), middle = Math.Log(top), right = Math.Log(Math.Max(after, floor));
        double curvature = (2 * left) - (4 * middle) + (2 * right);
        return curvature < 0 ? Math.Clamp((left - right) / curvature, -1, 1) : 0;
    }
}
