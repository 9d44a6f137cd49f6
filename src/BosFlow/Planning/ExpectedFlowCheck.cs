namespace BosFlow.Planning;

/// <summary>Ranges of the numbers of an <see cref="ExpectedFlow"/>.</summary>
internal static class ExpectedFlowCheck
{
    /// <summary>Everything that is wrong with a flow's own numbers, one sentence each.</summary>
    public static IReadOnlyList<string> Problems(ExpectedFlow flow)
    {
        var check = new RangeCheck();
        switch (flow)
        {
            case ExpectedFlow.Jet jet:
                check.Length("diameter of the nozzle", jet.NozzleDiameterMetres);
                check.Kelvin("temperature in the nozzle", jet.NozzleTemperatureKelvin);
                check.LengthOrNone("distance from the nozzle", jet.DistanceMetres);
                check.Positive("speed of the jet", jet.SpeedMetresPerSecond, 1e4, 1, "m/s");
                check.Positive("pressure in the jet", jet.PressurePascal, 1e8, 1, "Pa");
                break;
            case ExpectedFlow.Plume plume:
                check.Length("1/e radius of the plume", plume.HalfWidthMetres);
                check.Kelvin("temperature on the axis of the plume", plume.TemperatureKelvin);
                check.Positive("speed of the plume", plume.SpeedMetresPerSecond, 1e4, 1, "m/s");
                break;
            case ExpectedFlow.HeatedPlate plate:
                check.Kelvin("temperature of the plate", plate.WallTemperatureKelvin);
                check.Length("height above the lower edge of the plate", plate.HeightMetres);
                check.Length("width of the plate along the line of sight", plate.PathLengthMetres);
                break;
            case ExpectedFlow.Shock shock:
                check.Length("length of the shock along the line of sight", shock.PathLengthMetres);
                check.Length("thickness of the shock", shock.ThicknessMetres);
                break;
            case ExpectedFlow.WeakLens lens:
                check.Positive("focal length of the weak lens", Math.Abs(lens.FocalLengthMetres), 1e6, 1, "m");
                check.Length("diameter of the weak lens", lens.DiameterMetres);
                break;
            case ExpectedFlow.GasCell cell:
                check.Length("length of the gas cell", cell.PathLengthMetres);
                check.Length("layer over which the gas mixes", cell.LayerMetres);
                break;
            case ExpectedFlow.Deflection deflection:
                check.Positive("deflection", Math.Abs(deflection.Radians), 0.5, 1, "rad");
                check.Length("size of the structure", deflection.SizeMetres);
                break;
        }

        return check.Problems;
    }
}
