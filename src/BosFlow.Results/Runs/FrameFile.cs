using System.Globalization;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>One frame's result as the content of its netCDF file, and back.</summary>
internal static class FrameFile
{
    public const string IdentityName = "run_identity";
    private const string IndexName = "frame_index";
    private const string SideName = "window_side";
    private const string OrderName = "shape_order";

    /// <summary>Name of a frame's file: six digits, more where the number needs them.</summary>
    public static string Name(int index) => index.ToString("000000", CultureInfo.InvariantCulture) + ".nc";

    public static NetCdfContent ToContent(FrameResult result, OpticalScale? scale, string identity)
    {
        bool scaled = scale is not null;
        VectorField field = result.Field;
        return new NetCdfContent
        {
            Attributes = [.. Attributes(result, identity), .. ScaleAttributes.Of(scale)],
            Variables =
            [
                new() { Name = "time", Dimensions = [], Data = new[] { result.TimeSeconds }, Unit = "s", LongName = "time since the first frame of the footage", Attributes = [new("standard_name", "time")] },
                .. GridVariables.Coordinates(field.Grid, scale),
                GridVariables.Field("u", "px", "displacement of the pattern to the right", field.U, scaled, new NetCdfAttribute("ancillary_variables", "sigma_u flag")),
                GridVariables.Field("v", "px", "displacement of the pattern downwards", field.V, scaled, new NetCdfAttribute("ancillary_variables", "sigma_v flag")),
                GridVariables.Field("sigma_u", "px", "standard uncertainty of u", field.SigmaU, scaled),
                GridVariables.Field("sigma_v", "px", "standard uncertainty of v", field.SigmaV, scaled),
                GridVariables.Flags("flag", "why a vector is not a plain measurement, 0 = measured", field.Flags, scaled),
                GridVariables.Field("correlation", "1", "normalised correlation of the window after deformation", field.Correlation, scaled),
                GridVariables.Field("peak_ratio", "1", "highest correlation peak divided by the second highest", field.PeakRatio, scaled),
                .. Optional(SideName, "px", "side of the interrogation window", field.WindowSide, scaled),
                .. Optional(OrderName, "1", "degree of the polynomial fitted to the displacement within the window, 0 = a shift", field.ShapeOrder, scaled),
            ],
        };
    }

    public static FrameResult FromContent(NetCdfContent content) => new()
    {
        Index = content.Required<int>(IndexName),
        TimeSeconds = content.Values<double>("time")[0],
        Source = content.Required<string>("source"),
        Motion = MotionOf(content.Required<double[]>("background_motion")),
        Rows = RowMotionAttributes.Read(content),
        NoiseFloorU = content.Required<double>("noise_floor_u_px"),
        NoiseFloorV = content.Required<double>("noise_floor_v_px"),
        SigmaFactorU = content.Required<double>("sigma_factor_u"),
        SigmaFactorV = content.Required<double>("sigma_factor_v"),
        ValidFraction = content.Required<double>("valid_fraction"),
        MeanLevel = content.Required<double>("mean_level_dn"),
        SaturatedFraction = content.Required<double>("saturated_fraction"),
        Light = content.Attribute("light") is double[] { Length: 3 } light ? new LightComparison(light[0], light[1], light[2]) : LightComparison.Unknown,
        Failure = content.Attribute("failure") as string,
        Rejection = content.Attribute("rejection") as string,
        Warnings = content.Attribute("warnings") as string[] ?? [],
        Field = new VectorField
        {
            Grid = GridVariables.Grid(content),
            U = content.Values<float>("u"),
            V = content.Values<float>("v"),
            SigmaU = content.Values<float>("sigma_u"),
            SigmaV = content.Values<float>("sigma_v"),
            Flags = GridVariables.ReadFlags(content, "flag"),
            Correlation = content.Values<float>("correlation"),
            PeakRatio = content.Values<float>("peak_ratio"),
            WindowSide = Optional(content, SideName),
            ShapeOrder = Optional(content, OrderName),
        },
    };

    public static bool Belongs(NetCdfContent content, int index, string identity) =>
        content.Attribute(IdentityName) is string written && written == identity && content.Attribute(IndexName) is int number && number == index;

    /// <summary>Whether every value of a field has a place on its grid.</summary>
    public static bool IsFilled(VectorField field) =>
        new Array[] { field.U, field.V, field.SigmaU, field.SigmaV, field.Flags, field.Correlation, field.PeakRatio, field.WindowSide ?? field.U, field.ShapeOrder ?? field.U }.All(values => values.Length == field.Grid.Count);

    private static IEnumerable<NetCdfVariable> Optional(string name, string unit, string longName, float[]? values, bool scaled) =>
        values is null ? [] : [GridVariables.Field(name, unit, longName, values, scaled)];

    private static float[]? Optional(NetCdfContent content, string name) => content.Variables.Any(variable => variable.Name == name) ? content.Values<float>(name) : null;

    private static IEnumerable<NetCdfAttribute> Attributes(FrameResult result, string identity)
    {
        PlanarMotion m = result.Motion;
        yield return new("title", "Displacement of a background pattern seen through a flow, one frame");
        yield return new("source", result.Source);
        yield return new(IndexName, result.Index);
        yield return new(IdentityName, identity);
        yield return new("background_motion", new[] { m.H11, m.H12, m.H13, m.H21, m.H22, m.H23, m.H31, m.H32 });
        yield return new("background_motion_comment", "h11 h12 h13 h21 h22 h23 h31 h32 of the projective map from px of the reference to px of the frame; taken out of u and v");
        foreach (NetCdfAttribute attribute in RowMotionAttributes.Of(result.Rows))
            yield return attribute;
        yield return new("noise_floor_u_px", result.NoiseFloorU);
        yield return new("noise_floor_v_px", result.NoiseFloorV);
        yield return new("sigma_factor_u", result.SigmaFactorU);
        yield return new("sigma_factor_v", result.SigmaFactorV);
        yield return new("valid_fraction", result.ValidFraction);
        yield return new("mean_level_dn", result.MeanLevel);
        yield return new("saturated_fraction", result.SaturatedFraction);
        if (double.IsFinite(result.Light.Gain))
        {
            yield return new("light", new[] { result.Light.Gain, result.Light.LowestShare, result.Light.HighestShare });
            yield return new("light_comment", "mean level over that of the reference; lowest and highest of the same in a part of the picture (an eighth of the width by a sixth of the height) over it");
        }

        if (result.Failure is not null)
            yield return new("failure", result.Failure);
        if (result.Rejection is not null)
            yield return new("rejection", result.Rejection);
        if (result.Warnings.Count > 0)
            yield return new("warnings", result.Warnings.ToArray());
    }

    private static PlanarMotion MotionOf(double[] h) => h.Length == 8
        ? new PlanarMotion(h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7])
        : throw new InputDataException("The file's background motion does not have 8 numbers; it was written by another program or version: run the case again in a new folder.");
}
