using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>The coordinates and flags that every file of a grid of vectors shares.</summary>
internal static class GridVariables
{
    private const string SpacingName = "grid_spacing_px";

    public static IReadOnlyList<string> OnGrid { get; } = ["y", "x"];

    public static IEnumerable<NetCdfVariable> Coordinates(NodeGrid grid, OpticalScale? scale)
    {
        double[] y = [.. Enumerable.Range(0, grid.Rows).Select(grid.Y)];
        double[] x = [.. Enumerable.Range(0, grid.Columns).Select(grid.X)];
        yield return Axis("y", "y", "px", "window centre below the first row of the reference picture", y, "Y", new("positive", "down"), new(SpacingName, grid.Spacing));
        yield return Axis("x", "x", "px", "window centre right of the first column of the reference picture", x, "X", new NetCdfAttribute(SpacingName, grid.Spacing));
        if (scale is null)
            yield break;
        double millimetresPerPixel = scale.FlowMetresPerPixel * 1000;
        yield return Axis("y_flow_mm", "y", "mm", "window centre in the plane of the flow, downwards", [.. y.Select(value => value * millimetresPerPixel)], null);
        yield return Axis("x_flow_mm", "x", "mm", "window centre in the plane of the flow, to the right", [.. x.Select(value => value * millimetresPerPixel)], null);
    }

    public static NodeGrid Grid(NetCdfContent content)
    {
        double[] x = content.Values<double>("x");
        double[] y = content.Values<double>("y");
        double spacing = content.Variable("x").Attributes.FirstOrDefault(a => a.Name == SpacingName)?.Value as double?
            ?? throw new InputDataException("The file lacks the spacing of its grid; it was written by another program or version: run the case again in a new folder.");
        return new NodeGrid(x[0], y[0], spacing, x.Length, y.Length);
    }

    public static NetCdfVariable Field(string name, string unit, string title, Array values, bool scaled, params NetCdfAttribute[] attributes) => new()
    {
        Name = name,
        Dimensions = OnGrid,
        Data = values,
        Unit = unit,
        LongName = title,
        Attributes = scaled ? [.. attributes, new("coordinates", "y_flow_mm x_flow_mm")] : attributes,
    };

    public static NetCdfVariable Flags(string name, string title, VectorFlags[] flags, bool scaled) =>
        Flags(name, title, [.. flags.Select(f => (byte)f)], scaled, [.. Enum.GetValues<VectorFlags>().Where(f => f != VectorFlags.None).Select(f => ((byte)f, FlagWords.Word(f)))]);

    public static NetCdfVariable Flags(string name, string title, DensityFlags[] flags, bool scaled) =>
        Flags(name, title, [.. flags.Select(f => (byte)f)], scaled, DensityBits);

    /// <summary>The attributes that name the bits of a flag, after CF.</summary>
    public static IReadOnlyList<NetCdfAttribute> BitNames(IReadOnlyList<(byte Mask, string Word)> bits) =>
    [
        new("standard_name", "quality_flag"), new("flag_masks", bits.Select(b => b.Mask).ToArray()), new("flag_meanings", string.Join(' ', bits.Select(b => b.Word))),
    ];

    public static IReadOnlyList<(byte Mask, string Word)> DensityBits { get; } =
        [.. Enum.GetValues<DensityFlags>().Where(f => f != DensityFlags.None).Select(f => ((byte)f, FlagWords.Word(f)))];

    public static VectorFlags[] ReadFlags(NetCdfContent content, string name) => [.. content.Values<byte>(name).Select(value => (VectorFlags)value)];

    private static NetCdfVariable Flags(string name, string title, byte[] values, bool scaled, IReadOnlyList<(byte Mask, string Word)> bits) =>
        Field(name, "1", title, values, scaled, [.. BitNames(bits)]) with { Unit = null };

    private static NetCdfVariable Axis(string name, string dimension, string unit, string title, double[] values, string? axis, params NetCdfAttribute[] attributes) => new()
    {
        Name = name,
        Dimensions = [dimension],
        Data = values,
        Unit = unit,
        LongName = title,
        Attributes = axis is null ? attributes : [new("axis", axis), .. attributes],
    };
}
