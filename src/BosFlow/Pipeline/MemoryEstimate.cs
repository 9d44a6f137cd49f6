using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>Memory that a run takes at its peak. It does not depend on the number of frames.</summary>
/// <remarks>
/// Counted from the arrays that are alive at the same time, with a share for what the garbage collector has not cleared yet; the
/// constants were fitted to measured peaks of the whole process (docs/overnight.md) and hold within 30 %.
/// </remarks>
public static class MemoryEstimate
{
    private const double Program = 138e6;

    // Reference, its texture (level, two gradients, weights), masks, tiles of the registration; then maps and report.
    private const double BytesPerPixel = 102;

    // The frame before, which tells a repeated picture.
    private const double BytesPerPixelOfTheLast = 4;

    // Frame as read and waiting, in codes of 8 bits, its interpolation, the band that is deformed.
    private const double BytesPerPixelAndThread = 4;

    // Normal matrices, statistics, derived fields with their uncertainty.
    private const double BytesPerNode = 600;
    private const double BytesPerNodeAndThread = 150;
    private const double ThreadBytes = 2e6;

    // Sum in double precision and count; the frame being aligned and its motion.
    private const double BytesPerPixelOfAMean = 20;

    // The finer surface, its residual, direction, product and working memory, 16 bytes each, and the picture as values between; what the fit leaves may not be collected yet when frames are measured.
    private const double BytesPerPixelOfAFit = 100;

    // A frame made from the surface, and its interpolation.
    private const double BytesPerPixelOfACorrection = 12;

    /// <summary>The expected peak.</summary>
    /// <param name="width">Width of a frame, px.</param>
    /// <param name="height">Height of a frame, px.</param>
    /// <param name="grid">Grid of the vectors.</param>
    /// <param name="threads">Frames measured side by side, at least 1.</param>
    /// <param name="referenceFrames">Frames that the reference is made of, at least 1.</param>
    /// <param name="combination">How they are combined.</param>
    /// <param name="hasLater">Whether further stretches of flow-off frames are combined while the reference is in use.</param>
    /// <returns>Bytes.</returns>
    public static long PeakBytes(int width, int height, NodeGrid grid, int threads, int referenceFrames, ReferenceCombination combination, bool hasLater = false)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(referenceFrames, 1);
        double pixels = (double)width * height;
        double measuring = ((BytesPerPixel + BytesPerPixelOfTheLast) * pixels) + (BytesPerNode * grid.Count)
            + ((threads - 1) * (ThreadBytes + (BytesPerPixelAndThread * pixels) + (BytesPerNodeAndThread * grid.Count)));
        if (combination == ReferenceCombination.Joint && referenceFrames > 1)
            measuring += (BytesPerPixelOfAFit + (threads * BytesPerPixelOfACorrection)) * pixels;
        double reference = Reference(pixels, referenceFrames, combination);
        double combining = hasLater ? reference + (BytesPerPixel * pixels) + (BytesPerNode * grid.Count) : reference;
        return (long)(Program + Math.Max(measuring, combining));
    }

    private static double Reference(double pixels, int frames, ReferenceCombination combination)
    {
        if (frames == 1)
            return 0;
        double kept = Math.Min(Math.Max(ReferenceBuilder.KeptBytes, 3 * sizeof(float) * pixels), sizeof(float) * pixels * frames);
        return combination switch
        {
            ReferenceCombination.Mean => BytesPerPixelOfAMean * pixels,
            ReferenceCombination.Median => kept + (BytesPerPixelOfAMean * pixels),
            _ => kept + ((BytesPerPixelOfAMean + BytesPerPixelOfAFit) * pixels),
        };
    }
}
