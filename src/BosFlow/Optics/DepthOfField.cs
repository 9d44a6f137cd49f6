namespace BosFlow.Optics;

/// <summary>Distances within which a lens is sharp. Lengths in m, counted from the lens.</summary>
/// <remarks>
/// Thin lens, circle of confusion c on the sensor, aperture f / N: hyperfocal distance H = f^2 / (N c) + f, near limit s (H - f) / (H + s - 2 f), far limit
/// s (H - f) / (H - s), s the distance focused on. Source: elementary geometrical optics, e.g. S. F. Ray 2002, Applied Photographic Optics, 3rd ed., chapter 22 (from memory).
/// </remarks>
public static class DepthOfField
{
    /// <summary>Hyperfocal distance H: focused there, everything from H / 2 to infinity is sharp.</summary>
    /// <param name="focalLength">f, m, greater than 0.</param>
    /// <param name="fNumber">N, 1, greater than 0.</param>
    /// <param name="confusion">c: largest circle of confusion on the sensor, m, greater than 0.</param>
    /// <returns>m.</returns>
    public static double Hyperfocal(double focalLength, double fNumber, double confusion) =>
        (focalLength * focalLength / (fNumber * confusion)) + focalLength;

    /// <summary>Nearest distance that is sharp.</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="fNumber">N, 1.</param>
    /// <param name="confusion">c, m on the sensor.</param>
    /// <param name="focus">s: distance focused on, m, greater than f.</param>
    /// <returns>m.</returns>
    public static double Near(double focalLength, double fNumber, double confusion, double focus)
    {
        double hyperfocal = Hyperfocal(focalLength, fNumber, confusion);
        return focus * (hyperfocal - focalLength) / (hyperfocal + focus - (2 * focalLength));
    }

    /// <summary>Farthest distance that is sharp.</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="fNumber">N, 1.</param>
    /// <param name="confusion">c, m on the sensor.</param>
    /// <param name="focus">s, m, greater than f.</param>
    /// <returns>m; positive infinity from the hyperfocal distance on.</returns>
    public static double Far(double focalLength, double fNumber, double confusion, double focus)
    {
        double hyperfocal = Hyperfocal(focalLength, fNumber, confusion);
        return focus < hyperfocal ? focus * (hyperfocal - focalLength) / (hyperfocal - focus) : double.PositiveInfinity;
    }
}
