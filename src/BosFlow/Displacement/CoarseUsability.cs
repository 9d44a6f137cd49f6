namespace BosFlow.Displacement;

/// <summary>How much of a window of the first pass the reference can use.</summary>
internal enum CoarseUsability : byte
{
    /// <summary>Too little to correlate.</summary>
    TooLittle,

    /// <summary>Some pixels are missing.</summary>
    Partial,

    /// <summary>Every pixel, or nearly every one.</summary>
    Full,
}
