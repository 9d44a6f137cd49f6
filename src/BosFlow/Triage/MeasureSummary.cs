namespace BosFlow.Triage;

/// <summary>Brings the readings of frames and pairs together.</summary>
internal static class MeasureSummary
{
    // A repeated picture differs by its compression alone, and by no motion: a twentieth of what other neighbours differ by, and a fiftieth of a pixel; judgement.
    private const double SamePicture = 0.05;
    private const double SamePlace = 0.02;

    // A picture that hardly moves is copied by its own compression, so that a repetition by the recorder cannot be told.
    private const double LeastMotion = 0.2;

    // One pair that stands still may be a turning point of the shake.
    private const int FewestRepeats = 2;

    public static TriageMeasures Of(TriageRequest request, TimeScan times, IReadOnlyList<FrameReading> frames, IReadOnlyList<PairReading> pairs)
    {
        FrameReading[] seen = [.. frames.Where(frame => frame.Failure is null)];
        double level = Spread.Median(seen.Select(frame => frame.Level));
        double[] levels = [.. seen.Select(frame => frame.Level)];
        double sharp = Spread.Quantile(seen.Select(frame => frame.Median(tile => tile.ShortVariance)), 0.1);
        double window = request.Displacement.WindowPixels;
        double difference = Spread.Median(pairs.Select(pair => pair.Difference));
        double motion = Spread.Rms(pairs.Select(pair => Math.Sqrt((pair.ShiftX * pair.ShiftX) + (pair.ShiftY * pair.ShiftY))));
        (double jitter, double least) = RowJitter.Of(pairs);
        int repeats = pairs.Count(pair => IsRepeated(pair, difference));
        TileReading[] tiles = [.. seen.SelectMany(frame => frame.Tiles)];
        return new TriageMeasures
        {
            DotPixels = Spread.Median(seen.Select(frame => frame.Median(tile => tile.DotPixels))),
            SharpDotPixels = 4 * Math.Sqrt(sharp),
            DotsPerWindow = Spread.Median(seen.Select(frame => frame.Median(tile => tile.DotsPerPixel))) * window * window,
            PatternShare = tiles.Length == 0 ? 0 : tiles.Count(tile => tile.HasPattern) / (double)tiles.Length,
            Contrast = Spread.Median(seen.Select(frame => frame.Median(tile => tile.Contrast))),
            Level = level,
            ClippedHigh = Spread.Median(seen.Select(frame => frame.ClippedHigh)),
            ClippedLow = Spread.Median(seen.Select(frame => frame.ClippedLow)),
            ExposureRange = (Spread.Quantile(levels, 0.95) - Spread.Quantile(levels, 0.05)) / level,
            Flicker = Spread.Rms(Steps(seen, frame => frame.Level)) / level,
            ShakePerFrame = motion,
            ShakeRms = ShakeSpectrum.Rms(pairs),
            ShakeHertz = ShakeSpectrum.StrongestHertz(pairs, times.IntervalSeconds),
            SmearPixels = Spread.Median(seen.Select(frame => Smear(frame, sharp))),
            Wobble = Spread.Median(pairs.Select(pair => pair.Wobble)),
            WobbleCycles = Spread.Median(pairs.Select(pair => pair.WobbleCycles)),
            SharpnessPulse = Pulse(seen),
            Jitter = jitter,
            LeastJitter = least,
            RepeatedShare = !(motion > LeastMotion) || repeats < FewestRepeats ? 0 : repeats / (double)pairs.Count,
            FoundShare = pairs.Count == 0 ? double.NaN : pairs.Count(pair => pair.Failure is null) / (double)pairs.Count,
            Blockiness = Spread.Median(seen.Select(frame => frame.Blockiness)),
            NoiseFloor = Spread.Median(pairs.Select(pair => pair.NoiseFloor)),
        };
    }

    // A shake may pass through the same place twice. Written so that a pair without a motion counts by its difference.
    private static bool IsRepeated(PairReading pair, double usualDifference) =>
        pair.Difference <= SamePicture * usualDifference && usualDifference > 0 && !(Math.Abs(pair.ShiftX) + Math.Abs(pair.ShiftY) > SamePlace);

    /// <summary>Length of the smear of a frame: a dot dragged evenly by L gains the variance L^2 / 12.</summary>
    public static double Smear(FrameReading frame, double sharpVariance) =>
        Math.Sqrt(12 * Math.Max(0, frame.Median(tile => tile.LongVariance) - sharpVariance));

    // Both axes change by themselves where a picture is interpolated.
    private static double Pulse(FrameReading[] frames) =>
        Math.Sqrt((Square(Spread.Sigma([.. Steps(frames, frame => frame.Median(tile => tile.VarianceX))])) + Square(Spread.Sigma([.. Steps(frames, frame => frame.Median(tile => tile.VarianceY))]))) / 4);

    private static IEnumerable<double> Steps(FrameReading[] frames, Func<FrameReading, double> value)
    {
        for (int i = 1; i < frames.Length; i++)
        {
            if (frames[i].Index == frames[i - 1].Index + 1)
                yield return value(frames[i]) - value(frames[i - 1]);
        }
    }

    private static double Square(double value) => value * value;
}
