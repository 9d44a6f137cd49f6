using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Density;

namespace BosFlow.Cli.CaseFile;

/// <summary>Turns the checked values of [flow] into settings in SI units.</summary>
internal static class FlowMapping
{
    /// <summary>The flow in SI units.</summary>
    /// <param name="values">Checked values.</param>
    public static FlowSettings Of(CaseValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var standard = new FlowSettings();
        return new FlowSettings
        {
            Shape = values.Or(FlowKeys.Shape, standard.Shape),
            Axis = values.Optional(FlowKeys.Axis)?.Line,
            AxisDirectionDegrees = values.Number(FlowKeys.AxisDirection),
            Inversion = values.Or(FlowKeys.Inversion, standard.Inversion),
            AmbientEdges = values.Or(FlowKeys.AmbientEdges, standard.AmbientEdges),
            AmbientRegions = values.Or(FlowKeys.AmbientRegions, standard.AmbientRegions),
            FlowPressurePascal = values.Number(FlowKeys.Pressure),
            FlowPressureSigmaPascal = values.Number(FlowKeys.PressureSigma),
            Temperature = values.Or(FlowKeys.Temperature, standard.Temperature),
        };
    }
}
