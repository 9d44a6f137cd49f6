namespace BosFlow.Results.Files;

/// <summary>There is no room, or will soon be none, for what is still to be written. Nothing was harmed.</summary>
public sealed class DiskFullException : IOException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">How much is needed where, and what to do.</param>
    /// <param name="innerException">What the system said; null where it was not asked.</param>
    public DiskFullException(string message, Exception? innerException = null)
        : base(message, innerException)
    {
    }
}
