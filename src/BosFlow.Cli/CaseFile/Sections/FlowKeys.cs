using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Density;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [flow].</summary>
internal static class FlowKeys
{
    private const string Name = "flow";
    private const string PathIntegrated = "path-integrated";

    public static readonly ChoiceKey<FlowShape> Shape = new()
    {
        Section = Name,
        Name = "shape",
        Description = "What is known of the flow along the line of sight. path-integrated: nothing, the maps are integrals along the ray. planar: the same over path_length_mm. axisymmetric: round about an axis across the line of sight, such as a jet or a plume.",
        Choices = [(PathIntegrated, FlowShape.PathIntegrated), ("planar", FlowShape.Planar), ("axisymmetric", FlowShape.Axisymmetric)],
        Default = TomlLiteral.Of(PathIntegrated),
    };

    public static readonly NumberKey PathLength = new()
    {
        Section = Name,
        Name = "path_length_mm",
        Description = "Length of the flow along the line of sight, for shape = \"planar\".",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 1e7,
        Example = TomlLiteral.Of(120.0),
    };

    public static readonly AxisKey Axis = new()
    {
        Section = Name,
        Name = "axis",
        Description = "Axis of an axisymmetric flow, the flow running from the first point to the second. It is found from the symmetry of the field where it is not given.",
        Example = TomlLiteral.Of(AxisKey.Find),
    };

    public static readonly NumberKey AxisDirection = new()
    {
        Section = Name,
        Name = "axis_direction_deg",
        Description = "Rough direction of an axis that is to be found, counter-clockwise as seen on the picture (0 to the right, 90 upward): where the search starts.",
        Minimum = -360,
        Maximum = 360,
        Example = TomlLiteral.Of(90.0),
    };

    public static readonly ChoiceKey<AbelMethod> Inversion = new()
    {
        Section = Name,
        Name = "inversion",
        Description = "How radial profiles of an axisymmetric flow are found. spline (where nothing is said): no smoothing, for any flow. two-point, three-point: the classical operators, for comparison. smoothed: as smooth as the uncertainties leave open, for noisy fields.",
        Choices = [("spline", AbelMethod.CubicSpline), ("two-point", AbelMethod.TwoPoint), ("three-point", AbelMethod.ThreePoint), ("smoothed", AbelMethod.Smoothed)],
        Example = TomlLiteral.Of("smoothed"),
    };

    public static readonly EdgesKey AmbientEdges = new()
    {
        Section = Name,
        Name = "ambient_edges",
        Description = "Edges of the picture at which the gas is the surrounding one. Without these or ambient_regions a planar flow gives differences of density only.",
        Example = "[\"left\", \"right\"]",
    };

    public static readonly PolygonsKey AmbientRegions = new()
    {
        Section = Name,
        Name = "ambient_regions",
        Description = "Polygons in which the gas is the surrounding one. Corners [x, y] in px of the reference.",
        Example = "[[[0, 0], [300, 0], [300, 900], [0, 900]]]",
    };

    public static readonly ChoiceKey<TemperatureModel> Temperature = new()
    {
        Section = Name,
        Name = "temperature",
        Description = "How temperature follows from density: by the ideal gas at the pressure of the flow; or none, for shocks and other flows whose pressure is not known.",
        Choices = [("ideal-gas", TemperatureModel.IdealGas), ("none", TemperatureModel.None)],
        Default = TomlLiteral.Of("ideal-gas"),
    };

    public static readonly NumberKey Pressure = new()
    {
        Section = Name,
        Name = "pressure_pa",
        Description = "Pressure in the flow, for its temperature; the ambient one where it is not given, as in a subsonic free jet.",
        Minimum = 100,
        Maximum = 1e8,
        Example = TomlLiteral.Of(101325.0),
    };

    public static readonly NumberKey PathLengthSigma = NumberKey.Uncertainty(Name, "path_length_sigma_mm", "Standard uncertainty of path_length_mm.", 1e6, 2);

    public static readonly NumberKey PressureSigma = NumberKey.Uncertainty(Name, "pressure_sigma_pa", "Standard uncertainty of pressure_pa.", 1e7, 500);

    public static readonly CaseSection Section = new(
        Name,
        "The shape of the flow along the line of sight, and where it is undisturbed.",
        [Shape, PathLength, Axis, AxisDirection, Inversion, AmbientEdges, AmbientRegions, Temperature, Pressure, PathLengthSigma, PressureSigma]);
}
