namespace BosFlow.Cli.Running;

/// <summary>Frames a second over the last frames, by a monotonic clock: it follows a machine that becomes slower or faster.</summary>
/// <param name="clock">The clock.</param>
internal sealed class FrameRate(TimeProvider clock)
{
    private const int Window = 60;

    private readonly Queue<(int Done, long Time)> last = new();

    /// <summary>Frames a second; null as long as no frame was finished.</summary>
    public double? PerSecond
    {
        get
        {
            if (last.Count < 2)
                return null;
            ((int firstDone, long firstTime), (int lastDone, long lastTime)) = (last.First(), last.Last());
            double seconds = clock.GetElapsedTime(firstTime, lastTime).TotalSeconds;
            return seconds > 0 && lastDone > firstDone ? (lastDone - firstDone) / seconds : null;
        }
    }

    /// <summary>Takes note of how many frames are finished now.</summary>
    /// <param name="done">The number.</param>
    public void Note(int done)
    {
        if (last.Count > Window)
            last.Dequeue();
        last.Enqueue((done, clock.GetTimestamp()));
    }
}
