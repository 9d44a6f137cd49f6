using System.Text.Json.Nodes;

namespace BosFlow.Cli.CommandLine;

/// <summary>Turns an exception into what the user reads and the process returns.</summary>
internal static class ErrorReport
{
    /// <summary>Key of <see cref="Exception.Data"/> under which a run leaves the path of its log.</summary>
    public const string LogPathKey = "BosFlow.LogPath";

    private const int DocumentVersion = 1;

    /// <summary>Tells of an exception.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="exception">What ended the command.</param>
    /// <returns>The exit code.</returns>
    public static int Tell(Talk talk, Exception exception)
    {
        (int code, IReadOnlyList<string> sentences) = Explain(talk, exception);
        return Tell(talk, code, sentences);
    }

    /// <summary>What an exception means to the user.</summary>
    /// <param name="talk">Whether details are wanted; with --verbose they are told here.</param>
    /// <param name="exception">What ended a piece of work.</param>
    /// <returns>The exit code, and one sentence a problem.</returns>
    public static (int Code, IReadOnlyList<string> Sentences) Explain(Talk talk, Exception exception)
    {
        if (exception is AggregateException several)
            return Explain(talk, First(several));
        if (talk.Verbose && exception is not OperationCanceledException)
            talk.Detail(exception.ToString());
        return exception switch
        {
            OperationCanceledException interruption => (ExitCode.Interrupted, GoOnCommand.Sentences(interruption)),
            ConfigurationException configuration => (ExitCode.BadInput, configuration.Problems),
            InputDataException input => (ExitCode.BadInput, [input.Message]),
            WorkFailedException failed => (ExitCode.Failed, [failed.Message]),
            DllNotFoundException or TypeInitializationException { InnerException: DllNotFoundException or BadImageFormatException } =>
                (ExitCode.Failed, ["A native library is missing on this machine; bosflow doctor says which and how to install it."]),
            UnauthorizedAccessException denied => (ExitCode.Failed, [$"Access was refused: {Sentence(denied.Message)} Change the permissions, or choose another folder with --output."]),
            IOException io => (ExitCode.Failed, [$"Reading or writing failed: {Sentence(io.Message)}{Details(talk, io)}"]),
            OutOfMemoryException memory => (ExitCode.Failed, [$"The memory of this machine is not enough; finished frames are kept. Use --threads 1, or go on on a machine with more memory.{Details(talk, memory)}"]),
            _ => (ExitCode.Failed, [$"This is a fault in bosflow ({exception.GetType().Name}): {Sentence(exception.Message)}{Details(talk, exception)}"]),
        };
    }

    /// <summary>Tells of problems.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="code">The exit code.</param>
    /// <param name="sentences">One sentence a problem.</param>
    /// <returns>The exit code.</returns>
    public static int Tell(Talk talk, int code, IReadOnlyList<string> sentences)
    {
        foreach (string sentence in sentences)
            talk.Fail(sentence);
        talk.Document("error", DocumentVersion, new JsonObject
        {
            ["exit_code"] = code,
            ["problems"] = new JsonArray([.. sentences.Select(sentence => JsonValue.Create(sentence))]),
        });
        return code;
    }

    // Work on several threads wraps what went wrong; an error counts more than the cancellation it caused elsewhere.
    private static Exception First(AggregateException several)
    {
        Exception[] inner = [.. several.Flatten().InnerExceptions];
        Exception first = inner.FirstOrDefault(exception => exception is not OperationCanceledException) ?? inner[0];
        if (several.Data[LogPathKey] is { } log)
            first.Data[LogPathKey] = log;
        return first;
    }

    private static string Details(Talk talk, Exception exception)
    {
        if (exception.Data[LogPathKey] is string log)
            return $" For details, look into {log}.";
        return talk.Verbose ? string.Empty : " For details, run it again with --verbose.";
    }

    private static string Sentence(string message) => message.EndsWith('.') ? message : message + ".";
}
