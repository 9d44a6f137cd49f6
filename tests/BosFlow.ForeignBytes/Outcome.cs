namespace BosFlow.ForeignBytes;

/// <summary>How a reader took a mutated input. All but the first two are faults of the reader.</summary>
public enum Outcome
{
    /// <summary>It was read: the mutation left something usable.</summary>
    Accepted,

    /// <summary>It was refused by sentences that name the file, or the one beside it that it belongs to.</summary>
    Refused,

    /// <summary>It was refused, but a sentence names no file or is more than one line.</summary>
    Unclear,

    /// <summary>An exception that is no answer to a user.</summary>
    Crashed,

    /// <summary>More memory was taken than <see cref="Trial.MostBytes"/>.</summary>
    TookTooMuch,

    /// <summary>No answer within <see cref="Campaign.Longest"/>.</summary>
    Hung,

    /// <summary>The process ended: a fault in native code, or a stack that overflowed.</summary>
    Died,
}
