using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Optics;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [expected].</summary>
internal static class ExpectedKeys
{
    private const string Name = "expected";
    private const double LongestMillimetres = 1e7;

    public static readonly ChoiceKey<ExpectedKind> Kind = new()
    {
        Section = Name,
        Name = "kind",
        Description = "jet: a free round jet. plume: a round column of hot gas, such as above a candle. plate: the layer beside a heated vertical plate. shock: in front of a wedge. lens: a weak lens as a test object. gas-cell: another gas between windows. deflection: a known angle.",
        Choices =
        [
            ("jet", ExpectedKind.Jet), ("plume", ExpectedKind.Plume), ("plate", ExpectedKind.Plate), ("shock", ExpectedKind.Shock),
            ("lens", ExpectedKind.Lens), ("gas-cell", ExpectedKind.GasCell), ("deflection", ExpectedKind.Deflection),
        ],
        Example = TomlLiteral.Of("jet"),
    };

    public static readonly NumberKey NozzleDiameter = Length("nozzle_diameter_mm", "jet: diameter of the nozzle.", 60);

    public static readonly NumberKey Temperature = new()
    {
        Section = Name,
        Name = "temperature_c",
        Description = "jet: temperature in the nozzle. plume: on the axis. plate: of the plate.",
        Minimum = -150,
        Maximum = 3500,
        Example = TomlLiteral.Of(550.0),
    };

    public static readonly NumberKey Downstream = new()
    {
        Section = Name,
        Name = "downstream_mm",
        Description = "jet: distance downstream of the nozzle at which it is to be seen.",
        Minimum = 0,
        Maximum = LongestMillimetres,
        Example = TomlLiteral.Of(300.0),
    };

    public static readonly NumberKey Speed = Positive("speed_m_per_s", "jet: speed in the nozzle; plume: of the gas. For its motion during the exposure.", 1e4, 300);

    public static readonly NumberKey Pressure = new()
    {
        Section = Name,
        Name = "pressure_pa",
        Description = "jet: pressure in it; the ambient one where not given.",
        Minimum = 100,
        Maximum = 1e8,
        Example = TomlLiteral.Of(101325.0),
    };

    public static readonly NumberKey HalfWidth = Length("half_width_mm", "plume: radius at which the difference of density is down to 1/e (37 %).", 8);

    public static readonly NumberKey AboveEdge = Length("above_edge_mm", "plate: height above its lower edge at which it is to be seen.", 100);

    public static readonly NumberKey PathLength = Length("path_length_mm", "plate, shock, gas-cell: length along the line of sight.", 150);

    public static readonly NumberKey Mach = new()
    {
        Section = Name,
        Name = "mach",
        Description = "shock: Mach number of the oncoming flow.",
        Minimum = 1,
        AboveMinimum = true,
        Maximum = 30,
        Example = TomlLiteral.Of(2.0),
    };

    public static readonly NumberKey Wedge = new()
    {
        Section = Name,
        Name = "wedge_deg",
        Description = "shock: angle of the wedge against the oncoming flow.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 60,
        Example = TomlLiteral.Of(10.0),
    };

    public static readonly NumberKey Thickness = Length("thickness_mm", "shock: width over which the jump appears, by unevenness and turbulence.", 2);

    public static readonly NumberKey LensFocalLength = Positive("test_lens_focal_length_m", "lens: focal length of the weak lens, as an optician's +0.1 dioptre has 10 m.", 1e5, 10);

    public static readonly NumberKey LensDiameter = Length("test_lens_diameter_mm", "lens: its diameter.", 50);

    public static readonly ChoiceKey<string> CellGas = new()
    {
        Section = Name,
        Name = "cell_gas",
        Description = "gas-cell: the gas in it, pure.",
        Choices = [.. KnownGas.Names.Select(name => (name, name))],
        Example = TomlLiteral.Of("helium"),
    };

    public static readonly NumberKey Layer = Length("layer_mm", "gas-cell: length over which the gas mixes into the surroundings.", 10);

    public static readonly NumberKey Deflection = Positive("deflection_mrad", "deflection: the largest one.", 1e3, 0.5);

    public static readonly NumberKey Size = Length("size_mm", "deflection: size of the structure, from the largest deflection to that of the other sign, or to none.", 20);

    public static readonly NumberKey FinestStructure = Length("finest_structure_mm", "Finest structure that is to be resolved in the plane of the flow; the size of the expected flow where not given.", 5);

    public static readonly IntegerKey ReferenceFrames = Frames("reference_frames", "Number of flow-off frames whose mean will be the reference.", 30);

    public static readonly IntegerKey FlowFrames = Frames("flow_frames", "Number of frames with flow that are averaged for the mean field.", 100);

    public static readonly CaseSection Section = new(
        Name,
        "The flow that bosflow plan expects; a run ignores it. Set kind and the keys that name it.",
        [
            Kind, NozzleDiameter, Temperature, Downstream, Speed, Pressure, HalfWidth, AboveEdge, PathLength, Mach, Wedge, Thickness,
            LensFocalLength, LensDiameter, CellGas, Layer, Deflection, Size, FinestStructure, ReferenceFrames, FlowFrames,
        ])
    {
        IsListedBriefly = true,
    };

    private static NumberKey Length(string name, string description, double example) => Positive(name, description, LongestMillimetres, example);

    private static NumberKey Positive(string name, string description, double maximum, double example) => NumberKey.Positive(Name, name, description, maximum, example);

    private static IntegerKey Frames(string name, string description, int standard) => new()
    {
        Section = Name,
        Name = name,
        Description = description,
        Minimum = 1,
        Maximum = 10_000_000,
        Default = TomlLiteral.Of(standard),
    };
}
