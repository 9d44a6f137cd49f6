using System.Globalization;
using BosFlow.Cli.CommandLine;
using Serilog;
using Serilog.Core;

namespace BosFlow.Cli.Running;

/// <summary>The log of a run, log.txt in its folder; a resumed run appends.</summary>
internal sealed class RunLog : IDisposable
{
    private readonly Logger logger;
    private readonly string path;

    /// <summary>Opens the log.</summary>
    /// <param name="path">The file.</param>
    public RunLog(string path)
    {
        this.path = path;
        logger = new LoggerConfiguration()
            .WriteTo.File(
                path,
                outputTemplate: "{Timestamp:yyyy-MM-ddTHH:mm:ss.fffK} {Level:u3} {Message:lj}{NewLine}{Exception}",
                formatProvider: CultureInfo.InvariantCulture,
                // Several processes may work on one run folder, each on frames of its own.
                shared: true)
            .CreateLogger();
    }

    /// <summary>Notes what happens.</summary>
    /// <param name="line">One line.</param>
    public void Note(string line) => logger.Information("{Line}", line);

    /// <summary>Notes what the user should know.</summary>
    /// <param name="sentence">One sentence.</param>
    public void Warn(string sentence) => logger.Warning("{Sentence}", sentence);

    /// <summary>Notes what ended the run, with where it arose, and marks it with the log's path. For use as an exception filter.</summary>
    /// <param name="exception">What ended the run.</param>
    /// <returns>Always false: the exception goes on.</returns>
    public bool Record(Exception exception)
    {
        if (exception is OperationCanceledException)
        {
            logger.Warning("Interrupted; finished frames are kept.");
            return false;
        }

        logger.Error(exception, "The run ended early");
        exception.Data[ErrorReport.LogPathKey] = path;
        return false;
    }

    /// <inheritdoc/>
    public void Dispose() => logger.Dispose();
}
