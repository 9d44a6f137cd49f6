using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>What must hold for a rig to be judged.</summary>
internal static class PlanCheck
{
    /// <summary>Everything that is wrong with a request but its gas, flow and engine, one sentence each.</summary>
    public static IReadOnlyList<string> Problems(PlanRequest request)
    {
        var check = new RangeCheck();
        Rig(check, request.Rig);
        Camera(check, request);
        Board(check, request.Board);
        if (request.ReferenceFrames < 1)
            check.Add($"The number of reference frames is {request.ReferenceFrames}; it must be at least 1.");
        if (request.FlowFrames < 1)
            check.Add($"The number of frames with flow is {request.FlowFrames}; it must be at least 1.");
        check.Length("finest structure to be resolved", request.FinestStructureMetres);
        return check.Problems;
    }

    private static void Rig(RangeCheck check, RigGeometry rig)
    {
        if (!(rig.FlowToBackgroundMetres > 0))
            check.Add(FormattableString.Invariant($"The distance from the flow to the background is {rig.FlowToBackgroundMetres * 1e3:G6} mm: the board stands in front of the flow or in it; it must be greater than 0."));
        check.Length("distance from the lens to the flow", rig.LensToFlowMetres);
        if (rig.FocalLengthMetres is null)
            check.Add("The focal length is not given; a plan needs it.");
        if (rig.PixelPitchMetres is null)
            check.Add("The pixel pitch is not given; a plan needs it.");
        if (rig.FNumber is null)
            check.Add("The f-number is not given; a plan needs it.");
        check.Positive("focal length", rig.FocalLengthMetres, 10, 1e3, "mm");
        check.Positive("pixel pitch", rig.PixelPitchMetres, 1e-3, 1e6, "um");
        check.Within("f-number", rig.FNumber, 0.5, 1000, 1, string.Empty);
        if (rig.FocalLengthMetres is double f && rig.LensToFlowMetres > 0 && f >= rig.LensToFlowMetres)
            check.Add(FormattableString.Invariant($"The focal length {f * 1e3:G6} mm is not shorter than the distance to the flow, {rig.LensToFlowMetres * 1e3:G6} mm; move the camera away or take a shorter lens."));
    }

    private static void Camera(RangeCheck check, PlanRequest request)
    {
        Camera.CameraFacts camera = request.Camera;
        if (camera.PictureWidth is < 32 or > 65536 || camera.PictureHeight is < 32 or > 65536)
            check.Add($"The picture is {camera.PictureWidth} x {camera.PictureHeight} px; each side must be 32 to 65536 px.");
        check.Positive("exposure", camera.ExposureSeconds, 100, 1e3, "ms");
        check.Within("readout", camera.ReadoutSeconds, 0, 100, 1e3, "ms");
        check.Within("noise", camera.NoiseOfFullScale, 0, 0.5, 100, "%");
        check.Within("vibration", camera.VibrationRadians, 0, 1, 1e3, "mrad");
        check.Positive("frequency of the vibration", camera.VibrationHertz, 1e6, 1, "Hz");
        if (camera.FocusMetres is double focus && request.Rig.FocalLengthMetres is double f && !(focus > f))
            check.Add(FormattableString.Invariant($"The focus distance {focus * 1e3:G6} mm lies inside the lens's focal length of {f * 1e3:G6} mm; nothing is sharp there."));
    }

    private static void Board(RangeCheck check, PlannedBoard board)
    {
        check.Length("width of the board", board.WidthMetres);
        check.Length("height of the board", board.HeightMetres);
        check.Length("diameter of a dot", board.DotMetres);
        check.LengthOrNone("depth of the board", board.DepthMetres);
        check.Within("coverage by dots", board.Coverage, 0.01, 0.7, 1, string.Empty);
        check.Positive("contrast", board.Contrast, 1, 1, "of full scale");
    }
}
