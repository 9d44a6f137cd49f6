using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.NetCdf;
using BosFlow.Statistics;

namespace BosFlow.Results.Runs;

/// <summary>The statistics and derived fields of a run as the content of summary.nc, and back.</summary>
internal static class SummaryFile
{
    private const string DerivedName = "derived_fields";

    public static NetCdfContent ToContent(RunSummary summary, string identity)
    {
        bool scaled = summary.Scale is not null;
        FieldStatistics s = summary.Statistics;
        List<NetCdfVariable> variables =
        [
            .. GridVariables.Coordinates(s.Grid, summary.Scale),
            Mean("u", "mean displacement of the pattern to the right", s.MeanU, scaled),
            Mean("v", "mean displacement of the pattern downwards", s.MeanV, scaled),
            GridVariables.Field("sigma_u", "px", "standard uncertainty of the mean u", s.SigmaMeanU, scaled),
            GridVariables.Field("sigma_v", "px", "standard uncertainty of the mean v", s.SigmaMeanV, scaled),
            GridVariables.Field("u_rms", "px", "standard deviation of u over time", s.RmsU, scaled, new NetCdfAttribute("cell_methods", "time: standard_deviation")),
            GridVariables.Field("v_rms", "px", "standard deviation of v over time", s.RmsV, scaled, new NetCdfAttribute("cell_methods", "time: standard_deviation")),
            GridVariables.Field("count", "1", "number of frames in which the vector was measured", s.Count, scaled),
            GridVariables.Field("correlation", "1", "mean normalised correlation of the window", s.MeanCorrelation, scaled, new NetCdfAttribute("cell_methods", "time: mean")),
            GridVariables.Flags("flag", "flags that hold in more than half of the frames, 0 = none", s.PrevailingFlags, scaled),
        ];
        foreach (ScalarField field in summary.DerivedFields)
        {
            variables.Add(GridVariables.Field(field.Name, field.Unit, field.Title, field.Values, scaled, new NetCdfAttribute("ancillary_variables", $"sigma_{field.Name} flag")));
            variables.Add(GridVariables.Field($"sigma_{field.Name}", field.Unit, $"standard uncertainty of {field.Name}", field.Sigma, scaled));
        }

        if (summary.Density is { } density)
            variables.AddRange(DensityFile.Variables(density, s.Grid, scaled, summary.Case.Gas is { Name: "air", Composition.Count: 0 }));
        List<NetCdfAttribute> attributes =
        [
            new("title", "Displacement of a background pattern seen through a flow, statistics of a run"),
            new(FrameFile.IdentityName, identity),
            new("frames_asked", summary.Frames.Count),
            new("frames_measured", summary.Frames.Count(f => f.IsMeasured)),
            .. ScaleAttributes.Of(summary.Scale),
            .. Readout(summary.Case.Registration),
            .. Drift(summary.Reference.Drift),
            .. Light(LightVariation.Of(summary.Frames, summary.Reference.Image)),
        ];
        if (summary.DerivedFields.Count > 0)
            attributes.Add(new(DerivedName, summary.DerivedFields.Select(f => f.Name).ToArray()));
        if (summary.Density is not null)
            attributes.AddRange(DensityFile.Attributes(summary.Density));
        return new NetCdfContent { Variables = variables, Attributes = attributes };
    }

    public static FieldStatistics Statistics(NetCdfContent content) => new()
    {
        Grid = GridVariables.Grid(content),
        MeanU = content.Values<float>("u"),
        MeanV = content.Values<float>("v"),
        SigmaMeanU = content.Values<float>("sigma_u"),
        SigmaMeanV = content.Values<float>("sigma_v"),
        RmsU = content.Values<float>("u_rms"),
        RmsV = content.Values<float>("v_rms"),
        Count = content.Values<int>("count"),
        MeanCorrelation = content.Values<float>("correlation"),
        PrevailingFlags = GridVariables.ReadFlags(content, "flag"),
    };

    public static IReadOnlyList<ScalarField> DerivedFields(NetCdfContent content) => Fields(content, DerivedName);

    /// <summary>The fields whose names an attribute of the file lists, with their sigma.</summary>
    public static IReadOnlyList<ScalarField> Fields(NetCdfContent content, string listName)
    {
        NodeGrid grid = GridVariables.Grid(content);
        string[] names = content.Attribute(listName) as string[] ?? [];
        return [.. names.Select(content.Variable).Select(v =>
            new ScalarField(v.Name, v.LongName, v.Unit ?? "1", grid, content.Values<float>(v.Name), content.Values<float>($"sigma_{v.Name}")))];
    }

    private static IEnumerable<NetCdfAttribute> Readout(RegistrationSettings registration)
    {
        if (registration.ReadoutSeconds == 0)
            yield break;
        yield return new("readout_s", registration.ReadoutSeconds);
        if (registration.ReadoutSigmaSeconds is { } sigma)
            yield return new("readout_sigma_s", sigma);
    }

    private static IEnumerable<NetCdfAttribute> Drift(IReadOnlyList<BoardDriftFinding> drift) => drift.Count == 0
        ? []
        :
        [
            new("drift_rms_px", drift.Select(finding => finding.RmsPixels).ToArray()),
            new("drift_largest_px", drift.Select(finding => finding.LargestPixels).ToArray()),
            new("drift_removed", drift.Select(finding => finding.IsRemoved ? 1 : 0).ToArray()),
        ];

    private static IEnumerable<NetCdfAttribute> Light(LightVariation? light) => light is null
        ? []
        :
        [
            new("light_gain_lowest", light.LowestGain),
            new("light_gain_highest", light.HighestGain),
            new("light_lowest_part", light.LowestPart),
            new("light_corners_of_reference", light.CornerLevel),
            new("glare_fraction", light.GlareFraction),
            new("low_texture_fraction", light.LowTextureFraction),
        ];

    private static NetCdfVariable Mean(string name, string title, float[] values, bool scaled) =>
        GridVariables.Field(name, "px", title, values, scaled, new("cell_methods", "time: mean"), new("ancillary_variables", $"sigma_{name} flag count"));
}
