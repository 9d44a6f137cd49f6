using BosFlow.Footage;

namespace BosFlow.Triage;

/// <summary>Judges a take from short runs of frames spread over it.</summary>
public static class Triager
{
    /// <summary>Judges.</summary>
    /// <param name="request">The footage and what is known of it.</param>
    /// <param name="progress">Told after each frame how many of all sampled frames are done; null = nobody.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    /// <returns>The same for the same footage, whatever the number of threads.</returns>
    public static TriageResult Judge(TriageRequest request, Action<int, int>? progress, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        FootageInfo info = request.Footage.Info;
        IReadOnlyList<int[]> bursts = BurstPlan.Choose(info.FrameCount);
        var burstOf = bursts.SelectMany((frames, burst) => frames.Select(frame => (frame, burst))).ToDictionary(item => item.frame, item => item.burst);
        var readings = new List<FrameReading>();
        var pairs = new List<PairReading>();
        Frame? before = null;
        foreach (Frame frame in request.Footage.Read([.. burstOf.Keys], cancellationToken))
        {
            int burst = burstOf[frame.Index];
            readings.Add(FrameAnalysis.Read(frame, burst, request.Measurable, cancellationToken));
            if (before?.Image is not null && frame.Image is not null && frame.Index == before.Index + 1 && burstOf[before.Index] == burst)
                pairs.Add(Pair(request, before, frame, burst, bursts[burst], cancellationToken));
            before = frame;
            progress?.Invoke(readings.Count, burstOf.Count);
        }

        TimeScan times = TimeScan.Of(info.TimesSeconds);
        TriageMeasures measures = MeasureSummary.Of(request, times, readings, pairs);
        return new TriageResult
        {
            Info = info,
            Request = request,
            Times = times,
            Frames = readings,
            Pairs = pairs,
            Measures = measures,
            Findings = FaultSearch.Find(request, times, measures, readings),
            UsableRanges = UsableFrames.Of(readings, pairs, measures),
        };
    }

    // The engine is put to work on two pairs of a run only: it takes longer than all the rest.
    private static PairReading Pair(TriageRequest request, Frame first, Frame second, int burst, int[] run, CancellationToken cancellationToken)
    {
        PairReading pair = PairAnalysis.Read(first, second, burst, cancellationToken);
        int place = first.Index - run[0];
        if (place != run.Length / 3 && place != 2 * run.Length / 3)
            return pair;
        return pair with { NoiseFloor = FloorMeasurement.Of(first.Image!, second.Image!, pair, request.Displacement, (2 * burst) + (place > run.Length / 2 ? 1 : 0), cancellationToken) };
    }
}
