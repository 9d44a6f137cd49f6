using BosFlow.Camera;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>The limits that a rig violates, and by how much.</summary>
internal sealed class PlanViolations
{
    private const double LargestStrain = 0.1;
    private readonly List<string> sentences = [];

    /// <summary>One sentence each.</summary>
    public IReadOnlyList<string> Sentences => sentences;

    /// <summary>Number of limits violated.</summary>
    public int Count => sentences.Count;

    /// <summary>Sum of the logarithms by which values are beyond their limits: the smaller, the nearer.</summary>
    private double Excess { get; set; }

    /// <summary>What a rig's distances and views violate.</summary>
    public static PlanViolations OfGeometry(RigGeometry rig, CameraFacts camera, PlanLimits limits, FlowOptics? flow)
    {
        var violations = new PlanViolations();
        double distance = rig.LensToFlowMetres + rig.FlowToBackgroundMetres;
        double focal = rig.FocalLengthMetres!.Value;
        violations.AtMost("focal length", 1.05 * focal, rig.LensToFlowMetres, "the distance to the flow");
        if (violations.Count > 0)
            return violations;
        double scale = ThinLens.BackgroundMetresPerPixel(focal, distance, rig.PixelPitchMetres!.Value);
        double flowScale = scale * rig.LensToFlowMetres / distance;
        double view = flowScale * camera.PictureWidth;
        violations.AtMost("distance to the board", distance, limits.LongestBoardDistanceMetres * 1.0000001, "the longest allowed");
        violations.AtMost("board's width", scale * camera.PictureWidth, limits.LargestBoardWidthMetres, "the largest allowed");
        violations.AtMost("board's height", scale * camera.PictureHeight, limits.LargestBoardHeightMetres, "the largest allowed");
        if (limits.LeastViewWidthMetres is double least)
            violations.AtLeast("view at the flow", view, least, "the least asked for");
        if (flow is not null)
        {
            violations.AtLeast("view at the flow", Math.Max(view, flowScale * camera.PictureHeight), 2 * flow.ExtentMetres, "the flow's whole width");
            violations.AtLeast("distance from the flow to lens and board", Math.Min(rig.LensToFlowMetres, rig.FlowToBackgroundMetres), flow.HalfDepthMetres, "half the flow's depth");
        }

        return violations;
    }

    /// <summary>What a rig's displacements violate: the engine's range.</summary>
    public static PlanViolations OfPicture(PlanPoint point, FlowOptics? flow)
    {
        var violations = new PlanViolations();
        if (flow is null)
            return violations;
        double displacement = flow.PeakRadians * point.PixelsPerRadian;
        double strain = displacement * PlanResponse.LargestSlope(flow, point.FlowScale, point.FlowBlur) * point.FlowScale / flow.SizeMetres;
        double quarter = point.Request.Displacement.CoarseWindowPixels / 4.0;
        if (displacement > quarter)
            violations.Add(displacement / quarter, FormattableString.Invariant($"The displacement of {displacement:F1} px is beyond a quarter of the coarse window of {point.Request.Displacement.CoarseWindowPixels} px."));
        if (strain > LargestStrain)
            violations.Add(strain / LargestStrain, FormattableString.Invariant($"The displacement changes by {strain:F2} px a pixel; beyond {LargestStrain} dots smear."));
        return violations;
    }

    /// <summary>The one that violates fewer limits, and of those the one that violates them less; the first where they are alike.</summary>
    public static PlanViolations? Nearer(PlanViolations? first, PlanViolations? second)
    {
        if (first is null || second is null)
            return first ?? second;
        return (second.Count, second.Excess).CompareTo((first.Count, first.Excess)) < 0 ? second : first;
    }

    private void AtMost(string what, double value, double? limit, string limitName)
    {
        if (limit is double most && value > most)
            Add(value / most, FormattableString.Invariant($"The {what} of {value * 1e3:F0} mm is more than {limitName}, {most * 1e3:F0} mm."));
    }

    private void AtLeast(string what, double value, double least, string limitName)
    {
        if (value < least)
            Add(least / value, FormattableString.Invariant($"The {what} of {value * 1e3:F0} mm is less than {limitName}, {least * 1e3:F0} mm."));
    }

    private void Add(double beyond, string sentence)
    {
        sentences.Add(sentence);
        Excess += Math.Log(beyond);
    }
}
