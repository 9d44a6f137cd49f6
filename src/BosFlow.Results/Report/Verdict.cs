using BosFlow.Displacement;
using BosFlow.Pipeline;

namespace BosFlow.Results.Report;

/// <summary>What a run amounts to, in numbers.</summary>
public sealed record Verdict
{
    /// <summary>Frames asked for.</summary>
    public required int FramesAsked { get; init; }

    /// <summary>Frames measured.</summary>
    public required int FramesMeasured { get; init; }

    /// <summary>Frames left out: repeated, blurred, or shaken too far.</summary>
    public int FramesRejected { get; init; }

    /// <summary>Median over the measured frames of the noise floor in u, px; NaN where none is known.</summary>
    public required double NoiseFloorU { get; init; }

    /// <summary>Median noise floor in v, px; NaN where none is known.</summary>
    public required double NoiseFloorV { get; init; }

    /// <summary>99th percentile of the length of the mean displacement over the vectors without flag, px; NaN where there is none.</summary>
    public required double PeakPixels { get; init; }

    /// <summary>Path-integrated density gradient for 1 px, kg m-3, as a magnitude; null where the scale is not known.</summary>
    public double? DensityGradientPathPerPixel { get; init; }

    /// <summary>Noise floor as the length of a vector, px.</summary>
    public double NoiseFloor => Math.Sqrt((NoiseFloorU * NoiseFloorU) + (NoiseFloorV * NoiseFloorV));

    /// <summary>Peak signal over the noise floor of a single frame; NaN where either is not known.</summary>
    public double SignalToNoise => NoiseFloor > 0 ? PeakPixels / NoiseFloor : double.NaN;

    /// <summary>The verdict on a run.</summary>
    /// <param name="summary">What the run gave.</param>
    public static Verdict Of(RunSummary summary)
    {
        ArgumentNullException.ThrowIfNull(summary);
        FrameRecord[] measured = [.. summary.Frames.Where(f => f.IsMeasured)];
        return new Verdict
        {
            FramesAsked = summary.Frames.Count,
            FramesMeasured = measured.Length,
            FramesRejected = summary.Frames.Count(f => f.Rejection is not null),
            NoiseFloorU = RunMedian.Of(measured.Select(f => f.NoiseFloorU)),
            NoiseFloorV = RunMedian.Of(measured.Select(f => f.NoiseFloorV)),
            PeakPixels = Peak(summary),
            DensityGradientPathPerPixel = summary.Scale is { } scale ? Math.Abs(scale.DensityGradientPathPerPixel) : null,
        };
    }

    private static double Peak(RunSummary summary)
    {
        List<double> lengths = [];
        for (int i = 0; i < summary.Statistics.Grid.Count; i++)
        {
            double length = Math.Sqrt(Square(summary.Statistics.MeanU[i]) + Square(summary.Statistics.MeanV[i]));
            if (double.IsFinite(length) && summary.Statistics.PrevailingFlags[i] == VectorFlags.None)
                lengths.Add(length);
        }

        lengths.Sort();
        return lengths.Count == 0 ? double.NaN : lengths[(int)Math.Round(0.99 * (lengths.Count - 1))];
    }

    private static double Square(double value) => value * value;
}
