namespace BosFlow.Footage;

/// <summary>Whether a frame can be measured at all, by its grey levels on the measurable pixels.</summary>
/// <param name="MeanLevel">Mean grey level of the valid pixels, digital numbers; NaN where there is none.</param>
/// <param name="Contrast">Standard deviation of the valid pixels, digital numbers; NaN where there is none.</param>
/// <param name="SaturatedFraction">Share of the valid pixels at or above the white level, 0 to 1; NaN where the picture has no white level.</param>
/// <param name="InvalidFraction">Share of the measurable pixels that are NaN, 0 to 1.</param>
/// <param name="Failure">Why the frame cannot be measured, one sentence; null where it can.</param>
/// <param name="Warnings">What the user should know of a frame that is measured, one sentence each.</param>
public sealed record FrameQuality(
    double MeanLevel,
    double Contrast,
    double SaturatedFraction,
    double InvalidFraction,
    string? Failure,
    IReadOnlyList<string> Warnings)
{
    // Shares of the white level, all common practice without a source:
    // limited-range video puts black at 16 of 235 = 0.068, so a frame below 0.08 without texture is a black one;
    // texture of 0.2 % of white (half a grey level of 8 bits) is below what one window can be located by;
    // pixels that scatter by 2 % of white on their own may be dots smaller than a pixel: left to the correlation.
    private const double BlackShare = 0.08;
    private const double NoTextureShare = 0.002;
    private const double FinePatternShare = 0.02;
    private const double WeakTextureShare = 0.01;
    private const double SaturatedFrameFraction = 0.95;
    private const double SaturationWarningFraction = 0.01;

    /// <summary>Judges a frame.</summary>
    /// <param name="image">The frame.</param>
    /// <param name="measurable">The pixels that are to be measured; same size.</param>
    /// <exception cref="ArgumentException">The mask has another size.</exception>
    /// <remarks>
    /// Texture is told from noise and from uneven light by the structure function D(k), the mean squared difference
    /// of pixels k apart in x and y: white noise adds the same to every D(k), so (D(4) - D(1)) / 2 estimates the
    /// variance of structure the size of dots alone, and sqrt(D(1) / 2) bounds the noise.
    /// </remarks>
    public static FrameQuality Assess(GrayImage image, PixelMask measurable)
    {
        ArgumentNullException.ThrowIfNull(image);
        ArgumentNullException.ThrowIfNull(measurable);
        if (measurable.Width != image.Width || measurable.Height != image.Height)
            throw new ArgumentException("The mask has another size than the frame.", nameof(measurable));
        LevelCounts counts = LevelCounts.Of(image, measurable);
        if (counts.Valid == 0)
            return new FrameQuality(double.NaN, double.NaN, double.NaN, counts.Measurable == 0 ? double.NaN : 1, "The frame has no valid pixel in the measured region.", []);

        bool hasWhite = !float.IsNaN(image.WhiteLevel);
        double saturated = hasWhite ? (double)counts.Saturated / counts.Valid : double.NaN;
        double invalid = 1 - ((double)counts.Valid / counts.Measurable);
        double scale = hasWhite ? image.WhiteLevel : counts.LargestMagnitude;
        double nearDifference = StructureFunction.At(1, image, measurable);
        double texture = Math.Sqrt(Math.Max(0, (StructureFunction.At(4, image, measurable) - nearDifference) / 2));
        double grain = Math.Sqrt(nearDifference / 2);

        string? failure = WhyUnusable(counts, saturated, texture, grain, scale, image.WhiteLevel);
        return new FrameQuality(
            counts.Mean, counts.Contrast, saturated, invalid, failure,
            failure is null ? Cautions(counts, saturated, invalid, Math.Max(texture, grain), scale, hasWhite) : []);
    }

    private static string? WhyUnusable(LevelCounts counts, double saturated, double texture, double grain, double scale, float white)
    {
        if (saturated > SaturatedFrameFraction)
            return FormattableString.Invariant($"The frame is saturated: {saturated:P1} of its pixels are at the white level ({white}).");
        // Written so that a picture too small for the structure function (NaN) is left to the correlation.
        bool textureless = texture <= NoTextureShare * scale && grain <= FinePatternShare * scale;
        if (!textureless)
            return null;
        return counts.Mean < BlackShare * scale
            ? FormattableString.Invariant($"The frame is black: mean level {counts.Mean:0.0###}, contrast {counts.Contrast:0.0###}, largest level {counts.LargestMagnitude:0.###}, of {scale:0.###}.")
            : FormattableString.Invariant($"The frame is without texture: its structure varies by {texture:0.0###} of {scale:0.###} grey levels (mean level {counts.Mean:0.0###}), too little to find a shift by.");
    }

    private static List<string> Cautions(LevelCounts counts, double saturated, double invalid, double texture, double scale, bool hasWhite)
    {
        var warnings = new List<string>();
        if (saturated > SaturationWarningFraction)
            warnings.Add(FormattableString.Invariant($"{saturated:P1} of the pixels are saturated and dots are lost there; expose less."));
        if (invalid > 0)
            warnings.Add(FormattableString.Invariant($"{invalid:P2} of the pixels are invalid (NaN) and masked; look where they come from if they lie in the flow."));
        if (texture < WeakTextureShare * scale)
            warnings.Add(FormattableString.Invariant($"The texture is weak: it varies by {texture:0.0##} of {scale:0.###} grey levels; focus on the background, light it more or choose stronger dots."));
        if (hasWhite && counts.Mean < BlackShare * scale)
            warnings.Add(FormattableString.Invariant($"The frame is dark: mean level {counts.Mean:0.0} of {scale:0.###}."));
        return warnings;
    }
}
