using BosFlow.Camera;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Planning;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.CaseFile;

/// <summary>Turns the checked values that a plan needs into SI units.</summary>
internal static class PlanMapping
{
    // Divisors, because 1200 / 1000.0 is correctly rounded where 1200 * 0.001 may not be.
    private const double Milli = 1e3;
    private const double Percent = 100;

    /// <summary>The rig that is to be judged.</summary>
    /// <param name="values">Checked values; distances, lens and picture size are among them.</param>
    /// <param name="printed">Description of a board that is printed already; what the values leave open is taken from it. null for none.</param>
    public static PlanRequest Request(CaseValues values, BoardSettings? printed = null)
    {
        ArgumentNullException.ThrowIfNull(values);
        var request = new PlanRequest
        {
            // The length along the line of sight is that of the expected flow, not of the one that a run will assume.
            Rig = CaseMapping.Rig(values)! with { PathLengthMetres = null, PathLengthSigmaMetres = null },
            Gas = GasMapping.Of(values),
            Camera = Camera(values),
            Displacement = CaseMapping.Displacement(values),
            Board = Board(values, printed),
            Flow = Flow(values),
            FinestStructureMetres = values.Number(ExpectedKeys.FinestStructure) / Milli,
        };
        return request with
        {
            ReferenceFrames = values.Or(ExpectedKeys.ReferenceFrames, request.ReferenceFrames),
            FlowFrames = values.Or(ExpectedKeys.FlowFrames, request.FlowFrames),
        };
    }

    /// <summary>What the rig may be.</summary>
    /// <param name="values">Checked values.</param>
    public static PlanLimits Limits(CaseValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new PlanLimits
        {
            LongestBoardDistanceMetres = values.Number(LimitsKeys.LongestBoardDistance) / Milli,
            ShortestLensToFlowMetres = values.Number(LimitsKeys.ShortestLensToFlow) / Milli,
            ShortestFlowToBackgroundMetres = values.Number(LimitsKeys.ShortestFlowToBackground) / Milli,
            LongestFlowToBackgroundMetres = values.Number(LimitsKeys.LongestFlowToBackground) / Milli,
            LargestBoardWidthMetres = values.Number(LimitsKeys.LargestBoardWidth) / Milli,
            LargestBoardHeightMetres = values.Number(LimitsKeys.LargestBoardHeight) / Milli,
            LeastViewWidthMetres = values.Number(LimitsKeys.LeastViewWidth) / Milli,
            FocalLengthsMetres = [.. values.Or(LimitsKeys.FocalLengths, []).Select(length => length / Milli)],
            FNumbers = values.Or(LimitsKeys.FNumbers, []),
        };
    }

    private static CameraFacts Camera(CaseValues values)
    {
        var facts = new CameraFacts
        {
            PictureWidth = values.Or(CameraKeys.PictureWidth, 0),
            PictureHeight = values.Or(CameraKeys.PictureHeight, 0),
            ExposureSeconds = values.Number(CameraKeys.Exposure) / Milli,
            ReadoutSeconds = values.Number(CameraKeys.Readout) / Milli,
            FocusMetres = values.Number(CameraKeys.Focus) / Milli,
            VibrationRadians = values.Number(CameraKeys.Vibration) / Milli,
            VibrationHertz = values.Number(CameraKeys.VibrationRate),
        };
        return facts with { NoiseOfFullScale = values.Number(CameraKeys.Noise) / Percent ?? facts.NoiseOfFullScale };
    }

    private static PlannedBoard Board(CaseValues values, BoardSettings? printed)
    {
        var standard = new PlannedBoard();
        return new PlannedBoard
        {
            WidthMetres = values.Number(BoardKeys.Width) / Milli ?? printed?.WidthMetres,
            HeightMetres = values.Number(BoardKeys.Height) / Milli ?? printed?.HeightMetres,
            DotMetres = values.Number(BoardKeys.Dot) / Milli ?? printed?.Sizes[0].DiameterMetres,
            Coverage = values.Number(BoardKeys.Coverage) ?? printed?.Coverage ?? standard.Coverage,
            Contrast = values.Number(BoardKeys.Contrast) ?? standard.Contrast,
            DepthMetres = values.Number(BoardKeys.Depth) / Milli ?? standard.DepthMetres,
        };
    }

    private static ExpectedFlow? Flow(CaseValues values)
    {
        if (!values.Has(ExpectedKeys.Kind))
            return null;
        double path = (values.Number(ExpectedKeys.PathLength) ?? 0) / Milli;
        double kelvin = (values.Number(ExpectedKeys.Temperature) ?? 0) + GasKeys.ZeroCelsiusKelvin;
        double? speed = values.Number(ExpectedKeys.Speed);
        return values.Or(ExpectedKeys.Kind, default) switch
        {
            ExpectedKind.Jet => new ExpectedFlow.Jet(Metres(ExpectedKeys.NozzleDiameter), kelvin, Metres(ExpectedKeys.Downstream), speed, values.Number(ExpectedKeys.Pressure)),
            ExpectedKind.Plume => new ExpectedFlow.Plume(Metres(ExpectedKeys.HalfWidth), kelvin, speed),
            ExpectedKind.Plate => new ExpectedFlow.HeatedPlate(kelvin, Metres(ExpectedKeys.AboveEdge), path),
            ExpectedKind.Shock => new ExpectedFlow.Shock(values.Number(ExpectedKeys.Mach) ?? 0, values.Number(ExpectedKeys.Wedge) ?? 0, path, Metres(ExpectedKeys.Thickness)),
            ExpectedKind.Lens => new ExpectedFlow.WeakLens(values.Number(ExpectedKeys.LensFocalLength) ?? 0, Metres(ExpectedKeys.LensDiameter)),
            ExpectedKind.GasCell => new ExpectedFlow.GasCell(values.Or(ExpectedKeys.CellGas, string.Empty), path, Metres(ExpectedKeys.Layer)),
            _ => new ExpectedFlow.Deflection((values.Number(ExpectedKeys.Deflection) ?? 0) / Milli, Metres(ExpectedKeys.Size)),
        };

        double Metres(Keys.NumberKey key) => (values.Number(key) ?? 0) / Milli;
    }
}
