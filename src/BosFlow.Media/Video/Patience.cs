using System.Diagnostics;

namespace BosFlow.Media.Video;

/// <summary>Ends an external tool that gives nothing for too long, so that nobody waits for it for ever.</summary>
internal sealed class Patience : IDisposable
{
    private readonly TimeSpan limit;
    private readonly Timer timer;
    private volatile bool isOver;

    /// <summary>Starts without waiting.</summary>
    /// <param name="process">The tool.</param>
    /// <param name="limit">How long it may give nothing while it is waited for.</param>
    public Patience(Process process, TimeSpan limit)
    {
        this.limit = limit;
        timer = new Timer(_ =>
        {
            isOver = true;
            ToolRun.Kill(process);
        });
    }

    /// <summary>The time starts anew: the tool is waited for, or has just given something.</summary>
    public void Wait() => timer.Change(limit, Timeout.InfiniteTimeSpan);

    /// <summary>Nobody waits for the tool.</summary>
    public void Rest() => timer.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);

    /// <summary>Says so when the tool was ended.</summary>
    /// <param name="tool">The tool.</param>
    /// <exception cref="InputDataException">It was.</exception>
    public void ThrowIfOver(string tool)
    {
        if (isOver)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"{Path.GetFileName(tool)} gave nothing for {limit.TotalSeconds:0} s and was ended: look whether the disk with the footage answers, then start the same command again."));
        }
    }

    /// <inheritdoc/>
    public void Dispose() => timer.Dispose();
}
