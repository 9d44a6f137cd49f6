namespace BosFlow.Registration;

/// <summary>How several aligned frames become one reference picture.</summary>
public enum ReferenceCombination
{
    /// <summary>Arithmetic mean: least noise.</summary>
    Mean,

    /// <summary>Median: robust to passing disturbances.</summary>
    Median,

    /// <summary>The one pattern that fits all frames, finer than their pixels: no error of interpolation where the camera shakes.</summary>
    Joint,
}
