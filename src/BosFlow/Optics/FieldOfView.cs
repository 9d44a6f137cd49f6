namespace BosFlow.Optics;

/// <summary>How much of a plane square to the optical axis a picture shows.</summary>
public static class FieldOfView
{
    /// <summary>Width and height of the part of a plane that is seen: scale times number of pixels.</summary>
    /// <param name="metresPerPixel">Scale in the plane, m/px.</param>
    /// <param name="picture">Width and height of the picture, px.</param>
    /// <returns>Width and height, m.</returns>
    public static (double Width, double Height) InPlane(double metresPerPixel, (int Width, int Height) picture) =>
        (metresPerPixel * picture.Width, metresPerPixel * picture.Height);
}
