namespace BosFlow.Displacement;

/// <summary>The weights with which a window's value in the middle averages the displacement, for texture that is spread evenly.</summary>
/// <remarks>
/// <para>
/// A polynomial of second degree (1, x, y, x^2, xy, y^2) fitted over a square has in the middle the weights w w + g w + w g, the first factor along x and the second along y, w the top hat, g = h - w, h the weights of the fit of 1, t, t^2 along
/// one axis: for small blocks h = (9/4 - 15 t^2) / side, t from -1/2 to 1/2. The response to a wave along an axis is the transform of h, 0.9 at 1.29 sides, where the top hat needs 3.99; the variance is 3.5 times the top hat's.
/// A wave along the diagonal needs 1.75 sides: the square lacks the term x^2 y^2. Blocks make steps of h; variance and resolution then change together, so that their product stays. First degree has the top hat's weights in the middle.
/// </para>
/// <para>Source of h: A. Savitzky and M. J. E. Golay 1964, Anal. Chem. 36:1627 (from memory); the sums over both axes are derived (the moments of x and y separate).</para>
/// </remarks>
internal static class ShapeKernel
{
    /// <summary>h, one weight a pixel, their sum 1; w, the window's own weights, where the shape has them in the middle.</summary>
    /// <param name="settings">Window, spacing, weighting, shape.</param>
    public static double[] Along(DisplacementSettings settings)
    {
        double[] weights = WindowOverlap.Weights(settings.WindowPixels, settings.Weighting);
        double sum = weights.Sum();
        if (settings.Shape != WindowShape.Quadratic)
            return [.. weights.Select(weight => weight / sum)];
        int side = Math.Max(1, BlockLayout.SideOf(settings.WindowPixels, settings.SpacingPixels, settings.Windows, settings.Shape));
        float[] squares = new ShapeFunctions(settings.Shape, settings.WindowPixels / side, side).Axis[2];
        double mean = squares.Average(), variance = squares.Average(square => (square - mean) * (square - mean));
        return [.. Enumerable.Range(0, settings.WindowPixels).Select(x => (1 - (mean * (squares[x / side] - mean) / variance)) / settings.WindowPixels)];
    }

    /// <summary>The window's own weights w along an axis, their sum 1, and what the shape adds to them, g = h - w.</summary>
    /// <param name="settings">Window, spacing, weighting, shape.</param>
    public static (double[] Plain, double[] Beyond) Parts(DisplacementSettings settings)
    {
        double[] plain = Along(settings with { Shape = WindowShape.Constant });
        return (plain, [.. Along(settings).Zip(plain, (h, w) => h - w)]);
    }

    /// <summary>Variance of the value in the middle over that of the window's mean.</summary>
    /// <param name="settings">Window, spacing, weighting, shape.</param>
    public static double Variance(DisplacementSettings settings)
    {
        if (settings.Shape != WindowShape.Quadratic)
            return 1;
        double beyond = (settings.WindowPixels * Along(settings).Sum(weight => weight * weight)) - 1;
        return 1 + (2 * beyond);
    }

    /// <summary>Anything linear in the weights, of both axes together: w w + g w + w g.</summary>
    /// <param name="plainX">That of w along x.</param>
    /// <param name="beyondX">That of g along x.</param>
    /// <param name="plainY">That of w along y.</param>
    /// <param name="beyondY">That of g along y.</param>
    public static double OfBoth(double plainX, double beyondX, double plainY, double beyondY) => (plainX * (plainY + beyondY)) + (beyondX * plainY);
}
