namespace BosFlow.Displacement;

/// <summary>Why a vector is not a plain measurement: a bit mask; 0 means measured.</summary>
[Flags]
public enum VectorFlags : byte
{
    /// <summary>Measured.</summary>
    None = 0,

    /// <summary>Failed the normalised-median test; the value is the median of its valid neighbours.</summary>
    OutlierReplaced = 1,

    /// <summary>Correlation value below the threshold.</summary>
    LowCorrelation = 2,

    /// <summary>Lies in a part of the picture that is never measured; the value is NaN.</summary>
    Masked = 4,

    /// <summary>The window lies outside the frame; the value is NaN.</summary>
    OutOfFrame = 8,

    /// <summary>The refinement did not converge.</summary>
    NotConverged = 16,

    /// <summary>Too little contrast in the window to measure; the value is NaN.</summary>
    LowTexture = 32,

    /// <summary>Too much of the window is saturated; the value is NaN.</summary>
    Saturated = 64,
}
