using BosFlow.Pipeline;
using BosFlow.Results.Plots;

namespace BosFlow.Results.Report;

/// <summary>
/// A quantity over the frames of a run as a curve. Where there are more frames than a plot has room for, neighbours share a point:
/// the curve is their median, its band reaches from the lowest to the highest, so that no frame is hidden.
/// </summary>
internal sealed class FrameCurves
{
    // A plot is about a thousand pixels wide: each frame of a shorter run has more than one.
    private const int MostFrames = 600;
    private const int Points = 300;

    private readonly FrameRecord[][] groups;

    public FrameCurves(IReadOnlyList<FrameRecord> frames)
    {
        FramesAPoint = frames.Count <= MostFrames ? 1 : (frames.Count + Points - 1) / Points;
        groups = [.. frames.Chunk(FramesAPoint)];
        bool timed = frames.All(f => double.IsFinite(f.TimeSeconds));
        Label = timed ? "time (s)" : "number of the frame";
        X = [.. groups.Select(group => group.Average(f => timed ? f.TimeSeconds : f.Index))];
    }

    /// <summary>Frames that share a point.</summary>
    public int FramesAPoint { get; }

    /// <summary>Words of the abscissa, with its unit.</summary>
    public string Label { get; }

    private double[] X { get; }

    /// <summary>The curve of a quantity. Frames that could not be measured are left out; where all of a point were not, it has a gap.</summary>
    /// <param name="name">Its name in the legend.</param>
    /// <param name="value">The quantity of a frame.</param>
    public PlotCurve Of(string name, Func<FrameRecord, double> value)
    {
        double[][] sorted = [.. groups.Select(group => group.Where(f => f.IsMeasured).Select(value).Where(double.IsFinite).Order().ToArray())];
        var curve = new PlotCurve(name, X, [.. sorted.Select(RunMedian.Of)]);
        return FramesAPoint == 1
            ? curve
            : curve with { Band = new PlotBand([.. sorted.Select(v => v.Length == 0 ? double.NaN : v[0])], [.. sorted.Select(v => v.Length == 0 ? double.NaN : v[^1])]) { IsWhole = true } };
    }
}
