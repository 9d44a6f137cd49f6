namespace BosFlow.Planning;

/// <summary>How an expected displacement stands against its expected noise.</summary>
public enum Detectability
{
    /// <summary>Less than 3 standard deviations: not seen.</summary>
    Hopeless,

    /// <summary>3 to 10 standard deviations: seen, hardly to be quantified.</summary>
    Marginal,

    /// <summary>At least 10 standard deviations: to be quantified (common practice, no source).</summary>
    Good,
}
