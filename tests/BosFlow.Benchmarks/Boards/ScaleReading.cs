using BosFlow.Camera;

namespace BosFlow.Benchmarks.Boards;

/// <summary>A scale read from a picture whose true scale is known.</summary>
/// <param name="Scale">What was read; null = the board was not found.</param>
/// <param name="Error">Read scale over true one, less 1; NaN where nothing was read.</param>
/// <param name="Sigma">Its stated standard uncertainty, as part of the scale.</param>
internal sealed record ScaleReading(BoardScale? Scale, double Error, double Sigma)
{
    /// <param name="scale">What was read.</param>
    /// <param name="pixelsPerMetre">The true scale.</param>
    public static ScaleReading Of(BoardScale? scale, double pixelsPerMetre) => scale is null
        ? new ScaleReading(null, double.NaN, double.NaN)
        : new ScaleReading(scale, (1 / (scale.MetresPerPixel * pixelsPerMetre)) - 1, scale.RelativeSigma);
}
