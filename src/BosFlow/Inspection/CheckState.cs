namespace BosFlow.Inspection;

/// <summary>What a check of one property came to.</summary>
public enum CheckState
{
    /// <summary>Within its limit.</summary>
    Good,

    /// <summary>Beyond its limit.</summary>
    Bad,

    /// <summary>Not known, or not well enough for its limit.</summary>
    Open,
}
