using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>Density, refractive index and temperature as variables of summary.nc, and back.</summary>
internal static class DensityFile
{
    private const string FieldsName = "density_fields";
    private const string FlagName = "density_flag";
    private const string ResidualName = "integration_residual";

    /// <summary>The variables; fields lie on the grid of the summary.</summary>
    public static IEnumerable<NetCdfVariable> Variables(DensityResult density, NodeGrid grid, bool scaled, bool isAir)
    {
        if (density.Grid != grid)
            throw new ArgumentException("The density lies on another grid than the displacement.", nameof(density));
        for (int i = 0; i < density.Fields.Count; i++)
        {
            ScalarField field = density.Fields[i];
            string? standardName = StandardName(field.Name, isAir);
            string twins = i == 0 ? $"sigma_{field.Name} {Random(field)} {FlagName}" : $"sigma_{field.Name} {FlagName}";
            yield return GridVariables.Field(field.Name, field.Unit, field.Title, field.Values, scaled, [.. Standard(standardName), new("ancillary_variables", twins)]);
            yield return GridVariables.Field($"sigma_{field.Name}", field.Unit, $"standard uncertainty of {field.Name}", field.Sigma, scaled, [.. Standard(standardName, " standard_error")]);
        }

        if (density.Fields.Count > 0)
            yield return GridVariables.Field(Random(density.Fields[0]), density.Fields[0].Unit, $"part of sigma_{density.Fields[0].Name} that comes from the measured displacement", density.SigmaRandom, scaled);
        yield return GridVariables.Flags(FlagName, "why a density is not a plain result, 0 = determined", density.Flags, scaled);
        if (density.NormalisedResidual.Length > 0)
            yield return GridVariables.Field(ResidualName, "1", "residual of the integration in units of its standard uncertainty, about 1 for sound data", density.NormalisedResidual, scaled);
        foreach (NetCdfVariable variable in ProfileVariables.Of(density.Profiles))
            yield return variable;
    }

    public static IEnumerable<NetCdfAttribute> Attributes(DensityResult density)
    {
        yield return new("flow_shape", FlowWords.Word(density.Shape));
        if (density.Fields.Count > 0)
            yield return new(FieldsName, density.Fields.Select(f => f.Name).ToArray());
        if (density.Axis is not { } axis)
            yield break;
        yield return new("axis_point_px", new[] { axis.X, axis.Y });
        yield return new("axis_direction_deg", axis.DirectionDegrees);
        yield return new("axis_sigma_across_px", axis.SigmaAcrossPixels);
        yield return new("axis_sigma_direction_deg", axis.SigmaDirectionDegrees);
    }

    /// <summary>The density of a summary read back; null where the run gave none.</summary>
    /// <exception cref="InputDataException">The file holds a density of which run.json knows nothing, or lacks a variable.</exception>
    public static DensityResult? Read(NetCdfContent content, DensityDocument? document, string folder)
    {
        if (content.Variables.Any(v => v.Name == FlagName) != document is not null)
            throw new InputDataException($"summary.nc and run.json in {folder} are not of the same moment; finish this run with the command run.");
        if (document is null)
            return null;
        IReadOnlyList<ScalarField> fields = SummaryFile.Fields(content, FieldsName);
        return new DensityResult
        {
            Shape = document.Shape,
            Grid = GridVariables.Grid(content),
            Fields = fields,
            SigmaRandom = fields.Count > 0 ? content.Values<float>(Random(fields[0])) : [],
            Flags = [.. content.Values<byte>(FlagName).Select(value => (DensityFlags)value)],
            NormalisedResidual = content.Variables.Any(v => v.Name == ResidualName) ? content.Values<float>(ResidualName) : [],
            Profiles = ProfileVariables.Read(content),
            Axis = document.Axis,
            Budget = document.Budget,
            Checks = document.Checks,
            Methods = document.Methods,
            Warnings = document.Warnings,
        };
    }

    private static string Random(ScalarField field) => $"sigma_random_{field.Name}";

    // The table of standard names knows density and temperature of air, and of no other gas.
    private static string? StandardName(string field, bool isAir) => !isAir ? null : field switch
    {
        "density" => "air_density",
        "temperature" => "air_temperature",
        _ => null,
    };

    private static IEnumerable<NetCdfAttribute> Standard(string? name, string modifier = "") => name is null ? [] : [new("standard_name", name + modifier)];
}
