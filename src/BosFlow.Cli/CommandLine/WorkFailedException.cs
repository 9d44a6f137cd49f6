namespace BosFlow.Cli.CommandLine;

/// <summary>The work was begun and could not be finished; the message is one sentence for the user.</summary>
public sealed class WorkFailedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">What failed, where, and what to try.</param>
    /// <param name="innerException">The cause, for the log.</param>
    public WorkFailedException(string message, Exception? innerException = null)
        : base(message, innerException)
    {
    }
}
