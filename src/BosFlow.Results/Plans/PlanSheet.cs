using BosFlow.Planning;
using static BosFlow.Results.Plans.PlanFigures;

namespace BosFlow.Results.Plans;

/// <summary>The sheet of a plan: every number with its unit and what it means.</summary>
public static class PlanSheet
{
    /// <summary>The sheet.</summary>
    /// <param name="plan">What the formulas tell.</param>
    /// <returns>Groups in the order in which a rig is thought through.</returns>
    public static IReadOnlyList<PlanGroup> Of(PlanResult plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [View(plan), Sensitivity(plan), PlanFlowLines.Of(plan), Sharpness(plan), Resolution(plan), Pattern(plan), PlanMotionLines.Of(plan), Recommended(plan)];
    }

    private static PlanGroup View(PlanResult plan) => new(
        "View",
        [
            Area("View on the board", plan.ViewAtBoard, $"{plan.Request.Camera.PictureWidth} x {plan.Request.Camera.PictureHeight} px"),
            Area("View in the plane of the flow", plan.ViewAtFlow),
            Line("Scale on the board", plan.Scale.BackgroundMetresPerPixel * 1e3, "mm/px", $"magnification 1 : {Text(1 / plan.Magnification)}"),
            Line("Scale in the plane of the flow", plan.Scale.FlowMetresPerPixel * 1e3, "mm/px"),
        ]);

    private static PlanGroup Sensitivity(PlanResult plan)
    {
        string mean = $"of {plan.Request.FlowFrames} frames against a reference of {plan.Request.ReferenceFrames}";
        const string NoPlume = "none is seen however hot, or flow and surroundings are not one gas of known molar mass";
        return new PlanGroup(
            "Sensitivity",
            [
                Line("Displacement for 1 mrad", plan.PixelsPerRadian / 1e3, "px"),
                Line("Noise, one frame", plan.NoisePixels, "px", $"{Text(plan.NoiseBoundPixels)} px of it by grey-level noise alone (bound)"),
                Line("Noise, mean", plan.MeanNoisePixels, "px", mean),
                Line("Smallest gradient, one frame", plan.SmallestGradient, "kg m-3", "path-integrated density gradient, 3 standard deviations"),
                Line("Smallest gradient, mean", plan.SmallestMeanGradient, "kg m-3"),
                Known("Smallest plume, one frame", plan.SmallestPlumeKelvin, "K", "temperature difference on the axis of a wide round plume", NoPlume),
                Known("Smallest plume, mean", plan.SmallestMeanPlumeKelvin, "K", string.Empty, NoPlume),
            ]);
    }

    private static PlanGroup Sharpness(PlanResult plan)
    {
        double pitch = plan.Request.Rig.PixelPitchMetres ?? double.NaN;
        string focus = plan.Request.Camera.FocusMetres is null ? "the board, since focus_mm is not given" : "as given";
        return new PlanGroup(
            "Sharpness",
            [
                Millimetres("Focused at", plan.FocusMetres, focus),
                new PlanLine("Depth of field", $"{Text(plan.DepthOfField.Near * 1e3)} to {Text(plan.DepthOfField.Far * 1e3)}", "mm", "from the lens; sharp to 1 px"),
                Millimetres("Width of a ray bundle at the flow", plan.FlowBlurMetres, $"{Text(plan.FlowBlurMetres / plan.Scale.FlowMetresPerPixel)} px; finer detail of the flow is lost"),
                OnSensor("Circle of confusion, flow", plan.FlowConfusionMetres, pitch),
                OnSensor("Circle of confusion, board", plan.BoardConfusionMetres, pitch),
                OnSensor("Diffraction spot", plan.DiffractionSpotMetres, pitch, $"first dark ring at f/{Given(plan.Request.Rig.FNumber ?? double.NaN)}"),
            ]);
    }

    private static PlanGroup Resolution(PlanResult plan)
    {
        int window = plan.Request.Displacement.WindowPixels;
        return new PlanGroup(
            "Resolution",
            [
                Millimetres("Window in the plane of the flow", window * plan.Scale.FlowMetresPerPixel, $"{window} px"),
                Millimetres("Half is left of wavelength", plan.HalfResponseWavelengthMetres, "window, blur and pixel together"),
                Millimetres("Nine tenths are left of wavelength", plan.NineTenthsResponseWavelengthMetres, "finer detail is measured too small"),
            ]);
    }

    private static PlanGroup Pattern(PlanResult plan)
    {
        PlannedBoard board = plan.Request.Board;
        (double? small, double? large) = plan.DotRangeMetres;
        string range = large is double most ? $"{(small is double least ? Text(least * 1e3) : "below")} to {Text(most * 1e3)}".Replace("below to", "up to", StringComparison.Ordinal) : string.Empty;
        bool whole = board.WidthMetres is null && board.HeightMetres is null;
        return new PlanGroup(
            "Pattern",
            [
                Millimetres("Dot on the paper", plan.DotMetres, board.DotMetres is null ? "the one recommended, since dot_mm is not given" : "as given"),
                Line("Its image", plan.DotImagePixels, "px", "e^-2 diameter, blur included; 2 to 3 px is good"),
                new PlanLine("Dots whose image has 2 to 3 px", range, range.Length == 0 ? string.Empty : "mm", range.Length == 0 ? "none: blur alone is larger" : string.Empty),
                Line("Dots in a window", plan.DotsPerWindow, string.Empty, $"coverage {Text(board.Coverage)}, contrast {Text(board.Contrast)} of full scale"),
                Area("Board", (board.WidthMetres ?? plan.ViewAtBoard.Width, board.HeightMetres ?? plan.ViewAtBoard.Height), whole ? "as large as the view" : "as given"),
            ]);
    }

    private static PlanGroup Recommended(PlanResult plan)
    {
        string light = plan.LightChangeStops switch
        {
            double stops when stops < 0 => "less light than planned: more lamps or more gain",
            double => "light to spare",
            _ => string.Empty,
        };
        return new PlanGroup(
            "Recommended",
            [
                new PlanLine("Aperture", $"f/{Given(plan.RecommendedFNumber)}", string.Empty, $"planned f/{Given(plan.Request.Rig.FNumber ?? double.NaN)}"),
                Known("Exposure at most", plan.RecommendedExposureSeconds * 1e3, "ms", plan.Request.Camera.ExposureSeconds is double given ? $"for vibration; planned {Text(given * 1e3)} ms" : "for vibration", PlanMotionLines.NoLimit(plan)),
                Millimetres("Focus on the board, at", plan.RecommendedFocusMetres, "from the lens"),
                Known("Light with these", plan.LightChangeStops, "stops", light, "exposure_ms is not given: no comparison"),
                Millimetres("Dot on the paper", plan.RecommendedDotMetres),
            ]);
    }
}
