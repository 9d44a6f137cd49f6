namespace BosFlow.Footage;

/// <summary>Brings pictures of different bit depths to the same grey levels.</summary>
public static class GrayLevels
{
    /// <summary>A frame in the grey levels of the reference.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="reference">The reference, whose white level is wanted.</param>
    /// <returns>
    /// The frame as it is and no warning where both have the same white level, or neither has one; else the frame
    /// scaled by the ratio of the white levels, with one sentence that says so.
    /// </returns>
    /// <exception cref="InputDataException">One of the two has a white level and the other, a float picture, has none.</exception>
    public static (GrayImage Image, string? Warning) Match(GrayImage frame, GrayImage reference)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(reference);
        // Equals, not ==: two float pictures (NaN) match.
        if (frame.WhiteLevel.Equals(reference.WhiteLevel))
            return (frame, null);
        if (float.IsNaN(frame.WhiteLevel) || float.IsNaN(reference.WhiteLevel))
        {
            (string floats, string integers) = float.IsNaN(frame.WhiteLevel) ? ("frame", "reference") : ("reference", "frame");
            throw new InputDataException(FormattableString.Invariant(
                $"The {floats} has floating-point grey levels and the {integers} whole numbers up to {Math.Max(Finite(frame), Finite(reference))}, so their levels cannot be compared: convert both to the same kind of file."));
        }

        float factor = reference.WhiteLevel / frame.WhiteLevel;
        float[] scaled = new float[frame.Pixels.Length];
        for (int i = 0; i < scaled.Length; i++)
            scaled[i] = frame.Pixels[i] * factor;
        return (
            new GrayImage(frame.Width, frame.Height, scaled, reference.WhiteLevel),
            FormattableString.Invariant($"The frame's white level is {frame.WhiteLevel} and the reference's {reference.WhiteLevel}: the frame was scaled by {factor:0.#####}."));
    }

    private static float Finite(GrayImage image) => float.IsNaN(image.WhiteLevel) ? 0 : image.WhiteLevel;
}
