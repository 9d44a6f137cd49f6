namespace BosFlow.Displacement;

/// <summary>Settings of the windowed correlation engine.</summary>
public sealed record DisplacementSettings
{
    /// <summary>Passes that windows need to follow rows which move on their own (rolling shutter): with three, the noise floor at 1 % noise is 8 % higher (docs/validation).</summary>
    public const int PassesForRows = 5;

    /// <summary>Side of quadratic windows unless another is asked for, px: with nodes 8 px apart they show finer waves than windows of 32 px that fit a shift, at an eighth more noise (docs/validation).</summary>
    public const int QuadraticWindowPixels = 48;

    /// <summary>Side of the final interrogation window, px, even, 8 to 128.</summary>
    public int WindowPixels { get; init; } = 32;

    /// <summary>Distance between neighbouring vectors, px, 2 to 128.</summary>
    public int SpacingPixels { get; init; } = 16;

    /// <summary>Side of the window of the first, coarse pass, px: 32, 64 or 128.</summary>
    public int CoarseWindowPixels { get; init; } = 64;

    /// <summary>How far windows of the coarse pass overlap.</summary>
    public CoarseOverlap CoarseOverlap { get; init; } = CoarseOverlap.Half;

    /// <summary>Number of passes with image deformation after the coarse pass, 1 to 8.</summary>
    public int Passes { get; init; } = 3;

    /// <summary>Where the last pass deforms the frame. Passes between the first and the last one do it where the displacement has moved by more than 0.2 px alone; passes over windows that are no sums of blocks do it everywhere.</summary>
    public Sampling LastPass { get; init; } = Sampling.Everywhere;

    /// <summary>Distance between windows of the coarse pass, px.</summary>
    internal int CoarseSpacingPixels => CoarseOverlap == CoarseOverlap.Quarter ? 3 * CoarseWindowPixels / 4 : CoarseWindowPixels / 2;

    /// <summary>First pass, from 1, in which windows have their shape, or half the side: the last but one, but not the very first, whose predictor still lacks what a shift of whole windows sees.</summary>
    internal int FirstResolvingPass => Math.Max(Passes - 1, Math.Min(Passes, 2));

    /// <summary>Weighting of the final window.</summary>
    public WindowWeighting Weighting { get; init; } = WindowWeighting.TopHat;

    /// <summary>Whether windows may have half the side where the displacement changes steeply; only with windows that are sums of blocks (see <see cref="DisplacementSettingsCheck"/>).</summary>
    public WindowSizing Windows { get; init; } = WindowSizing.Fixed;

    /// <summary>How the displacement may vary within a window in the last two passes; only with windows that are sums of blocks (see <see cref="DisplacementSettingsCheck"/>).</summary>
    public WindowShape Shape { get; init; } = WindowShape.Constant;

    /// <summary>How the passes with image deformation find the remaining shift.</summary>
    public SubPixelMethod SubPixel { get; init; } = SubPixelMethod.LeastSquares;

    /// <summary>Interpolation of the deformed picture, in every pass.</summary>
    public InterpolationOrder Interpolation { get; init; } = InterpolationOrder.Quintic;

    /// <summary>Number of 3 x 3 binomial smoothings of the predictor between passes, 0 to 16. The result itself is never smoothed.</summary>
    public int PredictorSmoothings { get; init; } = 2;

    /// <summary>Vectors whose correlation is below this are flagged, 0 to 1.</summary>
    public double LowestCorrelation { get; init; } = 0.4;

    /// <summary>Threshold of the normalised-median test, greater than 0 (Westerweel and Scarano 2005 use 2).</summary>
    public double OutlierThreshold { get; init; } = 2;

    /// <summary>Noise level in the normalised-median test, px, greater than 0.</summary>
    public double OutlierNoisePixels { get; init; } = 0.1;

    /// <summary>Whether outliers get the median of their neighbours (flagged) or NaN (flagged).</summary>
    public bool ReplaceOutliers { get; init; } = true;
}
