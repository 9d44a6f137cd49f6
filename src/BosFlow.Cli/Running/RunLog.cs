using System.Globalization;
using BosFlow.Cli.CommandLine;
using Serilog;
using Serilog.Core;
using Serilog.Events;

namespace BosFlow.Cli.Running;

/// <summary>The log of a run, log.txt in its folder; a resumed run appends. What is told before <see cref="Begin"/> waits for it, so that a run that is refused leaves no log.</summary>
/// <param name="path">The file.</param>
internal sealed class RunLog(string path) : IDisposable
{
    private readonly Lock gate = new();
    private readonly List<(LogEventLevel Level, string Line)> waiting = [];
    private Logger? logger;

    /// <summary>Opens the file, if it is not open yet: from now on the run changes its folder.</summary>
    public void Begin() => Opened();

    /// <summary>Notes what happens.</summary>
    /// <param name="line">One line.</param>
    public void Note(string line) => Write(LogEventLevel.Information, line);

    /// <summary>Notes what the user should know.</summary>
    /// <param name="sentence">One sentence.</param>
    public void Warn(string sentence) => Write(LogEventLevel.Warning, sentence);

    /// <summary>Notes what ended the run, with where it arose, and marks it with the log's path. For use as an exception filter.</summary>
    /// <param name="exception">What ended the run; of a refusal before it began nothing is noted.</param>
    /// <returns>Always false: the exception goes on.</returns>
    public bool Record(Exception exception)
    {
        if (exception is InputDataException && !HasBegun)
            return false;
        if (exception is OperationCanceledException)
        {
            Opened().Warning("Interrupted; finished frames are kept.");
            return false;
        }

        Opened().Error(exception, "The run ended early");
        exception.Data[ErrorReport.LogPathKey] = path;
        return false;
    }

    /// <inheritdoc/>
    public void Dispose() => logger?.Dispose();

    private bool HasBegun
    {
        get
        {
            lock (gate)
                return logger is not null;
        }
    }

    private void Write(LogEventLevel level, string line)
    {
        lock (gate)
        {
            if (logger is null)
                waiting.Add((level, line));
            else
                logger.Write(level, "{Line}", line);
        }
    }

    private Logger Opened()
    {
        lock (gate)
        {
            if (logger is not null)
                return logger;
            logger = new LoggerConfiguration()
                .WriteTo.File(
                    path,
                    outputTemplate: "{Timestamp:yyyy-MM-ddTHH:mm:ss.fffK} {Level:u3} {Message:lj}{NewLine}{Exception}",
                    formatProvider: CultureInfo.InvariantCulture,
                    // Several processes may work on one run folder, each on frames of its own.
                    shared: true)
                .CreateLogger();
            foreach ((LogEventLevel level, string line) in waiting)
                logger.Write(level, "{Line}", line);
            waiting.Clear();
            return logger;
        }
    }
}
