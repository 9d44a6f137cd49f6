namespace BosFlow.Displacement;

/// <summary>How the passes with image deformation find the remaining shift.</summary>
public enum SubPixelMethod
{
    /// <summary>Correlation of the deformed windows by FFT, three-point Gaussian fit of the peak in x and y.</summary>
    ThreePointGaussian,

    /// <summary>Least-squares matching of grey levels with gain and offset per window (Gauss-Newton on the deformed picture).</summary>
    LeastSquares,
}
