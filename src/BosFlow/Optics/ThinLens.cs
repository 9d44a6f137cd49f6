namespace BosFlow.Optics;

/// <summary>Thin-lens relations of a camera that is focused on the background. Lengths in m.</summary>
/// <remarks>
/// From 1 / f = 1 / z_i + 1 / Z_B: image distance z_i = f Z_B / (Z_B - f), magnification M = f / (Z_B - f). Source: elementary geometrical
/// optics, e.g. E. Hecht, Optics, chapter 5; the blur at the flow plane is the cross-section of the cone from a background point to the aperture.
/// </remarks>
public static class ThinLens
{
    /// <summary>Magnification of the background, M = f / (Z_B - f).</summary>
    /// <param name="focalLength">f, m, greater than 0 and less than the distance.</param>
    /// <param name="backgroundDistance">Z_B: lens to background, m.</param>
    /// <returns>Image size over object size, 1.</returns>
    public static double Magnification(double focalLength, double backgroundDistance) =>
        focalLength / (backgroundDistance - focalLength);

    /// <summary>Distance from the lens to the sensor, z_i = f Z_B / (Z_B - f).</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="backgroundDistance">Z_B, m.</param>
    /// <returns>z_i, m.</returns>
    public static double ImageDistance(double focalLength, double backgroundDistance) =>
        focalLength * backgroundDistance / (backgroundDistance - focalLength);

    /// <summary>Scale in the background plane, p / M.</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="backgroundDistance">Z_B, m.</param>
    /// <param name="pixelPitch">p, m.</param>
    /// <returns>Metres in the background for one pixel, m/px.</returns>
    public static double BackgroundMetresPerPixel(double focalLength, double backgroundDistance, double pixelPitch) =>
        pixelPitch / Magnification(focalLength, backgroundDistance);

    /// <summary>Shift on the sensor for one radian of deflection, M Z_D.</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="lensToFlow">Z_A, m.</param>
    /// <param name="flowToBackground">Z_D, m.</param>
    /// <returns>m/rad.</returns>
    public static double SensitivityMetresPerRadian(double focalLength, double lensToFlow, double flowToBackground) =>
        Magnification(focalLength, lensToFlow + flowToBackground) * flowToBackground;

    /// <summary>Diameter of the geometric blur in the flow plane, (f / N) Z_D / Z_B: finer structure than about this is averaged by the aperture.</summary>
    /// <param name="focalLength">f, m.</param>
    /// <param name="fNumber">N, 1, greater than 0.</param>
    /// <param name="lensToFlow">Z_A, m.</param>
    /// <param name="flowToBackground">Z_D, m.</param>
    /// <returns>Diameter, m.</returns>
    public static double FlowPlaneBlur(double focalLength, double fNumber, double lensToFlow, double flowToBackground) =>
        focalLength / fNumber * flowToBackground / (lensToFlow + flowToBackground);
}
