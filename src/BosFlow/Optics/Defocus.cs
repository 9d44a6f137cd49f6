namespace BosFlow.Optics;

/// <summary>Blur of what does not lie where the lens is focused.</summary>
/// <remarks>
/// The cone behind the lens from a point at z closes at z_i(z) = f z / (z - f); the sensor stands at z_s = z_i(focus) and cuts the cone in a circle of
/// diameter c = (f / N) |1 - z_s / z_i(z)|. With the lens focused on the background and z = Z_A this is (f / N) f Z_D / (Z_A (Z_B - f)). Source: elementary
/// geometrical optics, e.g. E. Hecht, Optics, chapter 5 (derived).
/// </remarks>
public static class Defocus
{
    /// <summary>Diameter of the circle of confusion on the sensor of a point at a distance.</summary>
    /// <param name="focalLength">f, m, greater than 0.</param>
    /// <param name="fNumber">N, 1, greater than 0.</param>
    /// <param name="focus">Distance focused on, m, greater than f.</param>
    /// <param name="distance">Distance of the point, m, greater than f.</param>
    /// <returns>m on the sensor; 0 where the lens is focused.</returns>
    public static double CircleOfConfusion(double focalLength, double fNumber, double focus, double distance)
    {
        double sensor = ThinLens.ImageDistance(focalLength, focus);
        double sharp = ThinLens.ImageDistance(focalLength, distance);
        return focalLength / fNumber * Math.Abs(1 - (sensor / sharp));
    }

    /// <summary>f-number at which a point at a distance has a circle of confusion of a given size.</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="focus">Distance focused on, m, greater than f.</param>
    /// <param name="distance">Distance of the point, m, greater than f.</param>
    /// <param name="confusion">Diameter, m on the sensor, greater than 0.</param>
    /// <returns>N, 1; 0 where the point is sharp at any aperture.</returns>
    public static double FNumberFor(double focalLength, double focus, double distance, double confusion) =>
        CircleOfConfusion(focalLength, 1, focus, distance) / confusion;
}
