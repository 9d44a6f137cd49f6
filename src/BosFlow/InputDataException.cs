namespace BosFlow;

/// <summary>
/// Something that a person handed in (a file, a frame, a line, a key) cannot be used.
/// The message is one sentence that says what, where, and how to mend it.
/// </summary>
public sealed class InputDataException : Exception
{
    /// <summary>Creates the exception with a sentence that is shown to the user as it is.</summary>
    /// <param name="message">What is wrong, where, and how to mend it.</param>
    public InputDataException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception with a sentence for the user and the cause for the log.</summary>
    /// <param name="message">What is wrong, where, and how to mend it.</param>
    /// <param name="innerException">The cause, for the log only.</param>
    public InputDataException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
