using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>How well the motion of the background is known in the mean over a run.</summary>
internal static class MotionErrors
{
    /// <summary>Standard uncertainties of shift and scale of the mean motion, from the noise floors and the places of the vectors that were fitted.</summary>
    /// <param name="model">Motion model.</param>
    /// <param name="grid">Window centres.</param>
    /// <param name="nodes">Vectors that were fitted.</param>
    /// <param name="vectorsPerError">Number of vectors that share one error because their windows overlap, 1 or more.</param>
    /// <param name="noisePixels">Noise of a vector of one frame, px.</param>
    /// <param name="frames">Number of frames, 1 or more.</param>
    /// <param name="commonShare">Share of the variance that all frames have in common.</param>
    /// <remarks>
    /// Of n independent vectors with noise s: the shift has s / sqrt(n), the scale s / sqrt(n r2), r2 the mean square of the distance from their middle (least squares, unit weights).
    /// A homography has a scale for each axis: the mean square along the shorter one counts.
    /// </remarks>
    public static BackgroundMotionErrors Of(MotionModel model, NodeGrid grid, int[] nodes, double vectorsPerError, double noisePixels, int frames, double commonShare)
    {
        if (model == MotionModel.None || nodes.Length < 2 || !double.IsFinite(noisePixels))
            return BackgroundMotionErrors.None;
        double[] x = [.. nodes.Select(node => grid.X(node % grid.Columns))];
        double[] y = [.. nodes.Select(node => grid.Y(node / grid.Columns))];
        double centreX = x.Average();
        double centreY = y.Average();
        double squareX = x.Average(value => (value - centreX) * (value - centreX));
        double squareY = y.Average(value => (value - centreY) * (value - centreY));
        double ofMean = commonShare + ((1 - commonShare) / frames);
        double shift = noisePixels * Math.Sqrt(ofMean * Math.Max(1, vectorsPerError) / nodes.Length);
        double lever = model switch
        {
            MotionModel.Similarity => Math.Sqrt(squareX + squareY),
            MotionModel.Homography => Math.Sqrt(Math.Min(squareX, squareY)),
            _ => 0,
        };
        return new BackgroundMotionErrors(shift, lever > 0 ? shift / lever : 0, centreX, centreY);
    }
}
