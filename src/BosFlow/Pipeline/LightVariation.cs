using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>How the light varied over a run, and what it cost.</summary>
public sealed record LightVariation
{
    /// <summary>Lowest mean level of a measured frame over that of the reference, 1; NaN where none is known.</summary>
    public required double LowestGain { get; init; }

    /// <summary>Highest such level, 1.</summary>
    public required double HighestGain { get; init; }

    /// <summary>Standard deviation of these levels over their mean, 1; NaN for fewer than two frames.</summary>
    public required double RelativeDeviation { get; init; }

    /// <summary>Lowest level of a part of a frame (an eighth of its width by a sixth of its height) over what the reference and the frame's own level let expect, 1: a shadow that moved.</summary>
    public required double LowestPart { get; init; }

    /// <summary>Frame of that part; -1 where none is known.</summary>
    public required int LowestPartFrame { get; init; }

    /// <summary>Mean level in the corners of the reference over that in its middle, 1: vignetting and uneven light; NaN where the reference is unknown there.</summary>
    public required double CornerLevel { get; init; }

    /// <summary>Share of the vectors outside the masks that glare hid, mean over the measured frames, 0 to 1.</summary>
    public required double GlareFraction { get; init; }

    /// <summary>The largest such share of a frame, 0 to 1.</summary>
    public required double LargestGlareFraction { get; init; }

    /// <summary>Share of the vectors outside the masks without enough contrast, as in deep shade, mean over the measured frames, 0 to 1.</summary>
    public required double LowTextureFraction { get; init; }

    /// <summary>The largest such share of a frame, 0 to 1.</summary>
    public required double LargestLowTextureFraction { get; init; }

    /// <summary>Looks at the light of a run.</summary>
    /// <param name="records">All frames.</param>
    /// <param name="reference">The reference picture.</param>
    /// <returns>Null where no frame was measured.</returns>
    public static LightVariation? Of(IReadOnlyList<FrameRecord> records, GrayImage reference)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(reference);
        FrameRecord[] measured = [.. records.Where(record => record.IsMeasured)];
        if (measured.Length == 0)
            return null;
        FrameRecord[] lit = [.. measured.Where(record => double.IsFinite(record.Light.Gain))];
        double[] gains = [.. lit.Select(record => record.Light.Gain)];
        double mean = gains.Length == 0 ? double.NaN : gains.Average();
        FrameRecord? darkest = lit.MinBy(record => record.Light.LowestShare);
        return new LightVariation
        {
            LowestGain = gains.Length == 0 ? double.NaN : gains.Min(),
            HighestGain = gains.Length == 0 ? double.NaN : gains.Max(),
            RelativeDeviation = gains.Length < 2 ? double.NaN : Math.Sqrt(gains.Sum(gain => (gain - mean) * (gain - mean)) / (gains.Length - 1)) / mean,
            LowestPart = darkest?.Light.LowestShare ?? double.NaN,
            LowestPartFrame = darkest?.Index ?? -1,
            CornerLevel = Corners(reference),
            GlareFraction = measured.Average(record => record.GlareFraction),
            LargestGlareFraction = measured.Max(record => record.GlareFraction),
            LowTextureFraction = measured.Average(record => record.LowTextureFraction),
            LargestLowTextureFraction = measured.Max(record => record.LowTextureFraction),
        };
    }

    private static double Corners(GrayImage picture)
    {
        int width = Math.Max(1, picture.Width / LightComparison.Across);
        int height = Math.Max(1, picture.Height / LightComparison.Down);
        (int Left, int Top)[] corners = [(0, 0), (picture.Width - width, 0), (0, picture.Height - height), (picture.Width - width, picture.Height - height)];
        double[] levels = [.. corners.Select(corner => Mean(picture, corner.Left, corner.Top, width, height)).Where(double.IsFinite)];
        double middle = Mean(picture, (picture.Width - (2 * width)) / 2, (picture.Height - (2 * height)) / 2, 2 * width, 2 * height);
        return levels.Length == 0 ? double.NaN : levels.Average() / middle;
    }

    private static double Mean(GrayImage picture, int left, int top, int width, int height)
    {
        double sum = 0;
        int count = 0;
        for (int y = Math.Max(0, top); y < Math.Min(top + height, picture.Height); y++)
        {
            foreach (float level in picture.Row(y).Slice(Math.Max(0, left), Math.Min(width, picture.Width - Math.Max(0, left))))
            {
                if (!float.IsFinite(level))
                    continue;
                sum += level;
                count++;
            }
        }

        return count == 0 ? double.NaN : sum / count;
    }
}
