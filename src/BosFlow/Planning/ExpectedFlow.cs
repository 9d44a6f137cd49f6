namespace BosFlow.Planning;

/// <summary>A flow that is to be seen, as far as its largest deflection and its size go.</summary>
public abstract record ExpectedFlow
{
    private ExpectedFlow()
    {
    }

    /// <summary>A free round jet of hot gas, at a place on its axis.</summary>
    /// <param name="NozzleDiameterMetres">Diameter of the nozzle, m.</param>
    /// <param name="NozzleTemperatureKelvin">Temperature in the nozzle, K.</param>
    /// <param name="DistanceMetres">Distance downstream of the nozzle at which it is to be seen, m, 0 or more.</param>
    /// <param name="SpeedMetresPerSecond">Speed in the nozzle, for its motion during the exposure, m/s; null = not known.</param>
    /// <param name="PressurePascal">Pressure in the jet, Pa; null = the ambient one.</param>
    public sealed record Jet(double NozzleDiameterMetres, double NozzleTemperatureKelvin, double DistanceMetres, double? SpeedMetresPerSecond, double? PressurePascal) : ExpectedFlow;

    /// <summary>A round column of hot gas of known size, such as the plume of a candle.</summary>
    /// <param name="HalfWidthMetres">Radius at which the difference of density is down to 1/e, m.</param>
    /// <param name="TemperatureKelvin">Temperature on the axis, K.</param>
    /// <param name="SpeedMetresPerSecond">Speed of the gas, m/s; null = not known.</param>
    public sealed record Plume(double HalfWidthMetres, double TemperatureKelvin, double? SpeedMetresPerSecond) : ExpectedFlow;

    /// <summary>The laminar boundary layer beside a heated vertical plate, seen along the plate.</summary>
    /// <param name="WallTemperatureKelvin">Temperature of the plate, K, above the ambient one.</param>
    /// <param name="HeightMetres">Height above the plate's lower edge at which it is to be seen, m.</param>
    /// <param name="PathLengthMetres">Width of the plate along the line of sight, m.</param>
    public sealed record HeatedPlate(double WallTemperatureKelvin, double HeightMetres, double PathLengthMetres) : ExpectedFlow;

    /// <summary>An oblique shock in front of a wedge, plane along the line of sight.</summary>
    /// <param name="Mach">Mach number of the oncoming flow, whose density is the ambient one.</param>
    /// <param name="WedgeDegrees">Angle of the wedge, degrees.</param>
    /// <param name="PathLengthMetres">Length along the line of sight, m.</param>
    /// <param name="ThicknessMetres">Width over which the jump appears, m: unevenness and turbulence, not the shock itself.</param>
    public sealed record Shock(double Mach, double WedgeDegrees, double PathLengthMetres, double ThicknessMetres) : ExpectedFlow;

    /// <summary>A weak lens as a test object in the flow plane.</summary>
    /// <param name="FocalLengthMetres">Focal length, m.</param>
    /// <param name="DiameterMetres">Diameter, m.</param>
    public sealed record WeakLens(double FocalLengthMetres, double DiameterMetres) : ExpectedFlow;

    /// <summary>A cell with parallel windows filled with another gas, of which one side is open or graded: the density falls evenly from that of the gas to the ambient one.</summary>
    /// <param name="GasName">A gas known by name.</param>
    /// <param name="PathLengthMetres">Length of the cell along the line of sight, m.</param>
    /// <param name="LayerMetres">Length over which the gas mixes into the surroundings across the line of sight, m.</param>
    public sealed record GasCell(string GasName, double PathLengthMetres, double LayerMetres) : ExpectedFlow;

    /// <summary>A largest deflection that is known from elsewhere.</summary>
    /// <param name="Radians">Largest deflection, rad.</param>
    /// <param name="SizeMetres">Size of the structure, m: distance from the largest deflection of one sign to that of the other, or to none.</param>
    public sealed record Deflection(double Radians, double SizeMetres) : ExpectedFlow;
}
