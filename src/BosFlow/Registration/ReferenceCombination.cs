namespace BosFlow.Registration;

/// <summary>How several aligned frames become one reference picture.</summary>
public enum ReferenceCombination
{
    /// <summary>Arithmetic mean: least noise.</summary>
    Mean,

    /// <summary>Median: robust to passing disturbances.</summary>
    Median,
}
