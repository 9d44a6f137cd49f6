using BosFlow.Footage;

namespace BosFlow.Density;

/// <summary>What is known of the flow: its shape along the line of sight, where it is undisturbed, and its pressure.</summary>
public sealed record FlowSettings
{
    /// <summary>Shape along the line of sight. The length of a planar flow is <see cref="Optics.RigGeometry.PathLengthMetres"/>.</summary>
    public FlowShape Shape { get; init; } = FlowShape.PathIntegrated;

    /// <summary>Axis of an axisymmetric flow; null = it is found from the symmetry of the measured field.</summary>
    public AxisLine? Axis { get; init; }

    /// <summary>Rough direction of the axis, degrees counter-clockwise as seen on the picture (90 = upward), where the search for it starts; null = not stated.</summary>
    public double? AxisDirectionDegrees { get; init; }

    /// <summary>How the radial profiles of an axisymmetric flow are found.</summary>
    public AbelMethod Inversion { get; init; } = AbelMethod.CubicSpline;

    /// <summary>Edges of the picture at which the gas is the surrounding one.</summary>
    public PictureEdge AmbientEdges { get; init; } = PictureEdge.None;

    /// <summary>Polygons, px of the reference, in which the gas is the surrounding one.</summary>
    public IReadOnlyList<PixelPolygon> AmbientRegions { get; init; } = [];

    /// <summary>Pressure in the flow, Pa; null = that of the surroundings.</summary>
    public double? FlowPressurePascal { get; init; }

    /// <summary>Standard uncertainty of that pressure, Pa; null = not stated.</summary>
    public double? FlowPressureSigmaPascal { get; init; }

    /// <summary>How temperature follows from density.</summary>
    public TemperatureModel Temperature { get; init; } = TemperatureModel.IdealGas;
}
