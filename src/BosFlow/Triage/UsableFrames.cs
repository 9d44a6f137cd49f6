namespace BosFlow.Triage;

/// <summary>Which runs of frames are worth measuring.</summary>
internal static class UsableFrames
{
    // A run is worth measuring where most of its frames are; each frame by what the engine can still normalise or match, all judgement:
    // half to twice the usual light, less than a quarter clipped, a smear no longer than two dots, a pattern in a third of the tiles.
    private const double MostShare = 0.5;
    private const double LightFactor = 2;
    private const double MostClipped = 0.25;
    private const double MostSmear = 2;
    private const double LeastPattern = 0.33;

    public static IReadOnlyList<(int First, int Last)> Of(IReadOnlyList<FrameReading> frames, IReadOnlyList<PairReading> pairs, TriageMeasures measures)
    {
        double sharp = measures.SharpDotPixels * measures.SharpDotPixels / 16;
        var ranges = new List<(int First, int Last)>();
        bool joins = false;
        foreach (IGrouping<int, FrameReading> run in frames.GroupBy(frame => frame.Burst))
        {
            int good = run.Count(frame => IsGood(frame, measures, sharp));
            PairReading[] ofRun = [.. pairs.Where(pair => pair.Burst == run.Key)];
            bool moves = ofRun.Length == 0 || ofRun.Count(pair => pair.Failure is null) > MostShare * ofRun.Length;
            bool usable = good > MostShare * run.Count() && moves;
            if (usable && joins)
                ranges[^1] = (ranges[^1].First, run.Last().Index);
            else if (usable)
                ranges.Add((run.First().Index, run.Last().Index));
            joins = usable;
        }

        return ranges;
    }

    private static bool IsGood(FrameReading frame, TriageMeasures measures, double sharpVariance) =>
        frame.Failure is null
        && frame.Level < LightFactor * measures.Level && LightFactor * frame.Level > measures.Level
        && frame.ClippedHigh < MostClipped
        && frame.Tiles.Count(tile => tile.HasPattern) >= LeastPattern * frame.Tiles.Count
        && MeasureSummary.Smear(frame, sharpVariance) < MostSmear * measures.SharpDotPixels;
}
