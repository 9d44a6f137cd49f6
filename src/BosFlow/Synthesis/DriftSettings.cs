using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Slow drift of the view, in proportion to time from nothing in the first frame to all of it in the last: what heat and a yielding mount do.</summary>
public sealed record DriftSettings
{
    /// <summary>Shift to the right and down at the end, px, -100 to 100.</summary>
    public double ShiftPixels { get; init; }

    /// <summary>Change of scale about the middle of the picture at the end, percent, -5 to 5.</summary>
    public double ScalePercent { get; init; }

    /// <summary>Bending at the end, px, -20 to 20: at half a height from the middle points move this far to the right, at half a width this far down, and with the square of the distance elsewhere.</summary>
    public double BendPixels { get; init; }

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems()
    {
        var problems = new List<string>();
        if (!(Math.Abs(ShiftPixels) <= 100))
            problems.Add(FormattableString.Invariant($"The drift shifts by {ShiftPixels} px; it must be -100 to 100 px."));
        if (!(Math.Abs(ScalePercent) <= 5))
            problems.Add(FormattableString.Invariant($"The drift changes the scale by {ScalePercent} %; it must be -5 to 5 %."));
        if (!(Math.Abs(BendPixels) <= 20))
            problems.Add(FormattableString.Invariant($"The drift bends by {BendPixels} px; it must be -20 to 20 px."));
        return problems;
    }

    /// <summary>Where a dot of the view at rest lies after a share of the drift.</summary>
    internal Dot Move(Dot dot, double centreX, double centreY, double share)
    {
        double x = dot.X - centreX;
        double y = dot.Y - centreY;
        double across = x / centreX;
        double down = y / centreY;
        double stretch = ScalePercent / 100;
        return dot with
        {
            X = dot.X + (share * (ShiftPixels + (stretch * x) + (BendPixels * down * down))),
            Y = dot.Y + (share * (ShiftPixels + (stretch * y) + (BendPixels * across * across))),
        };
    }

    /// <summary>Largest drift of a point of the picture, px.</summary>
    internal double Largest(double centreX, double centreY) =>
        Math.Abs(ShiftPixels) + (Math.Abs(ScalePercent) / 100 * Math.Max(centreX, centreY)) + Math.Abs(BendPixels);
}
