using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Density;

namespace BosFlow.Cli.CaseFile;

/// <summary>Finds what is wrong between the keys of [flow], and between them and [rig].</summary>
internal static class FlowContradictions
{
    /// <summary>Notes every contradiction.</summary>
    /// <param name="values">The keys of the file.</param>
    /// <param name="hasRig">Whether the file has a rig.</param>
    /// <param name="problems">Receives the sentences.</param>
    public static void Find(CaseValues values, bool hasRig, CaseProblems problems)
    {
        // A shape that could not be read was told already; every other sentence would only guess.
        if (values.Has(FlowKeys.Shape) && !values.IsUsable(FlowKeys.Shape))
            return;
        FlowShape shape = values.Or(FlowKeys.Shape, FlowShape.PathIntegrated);
        PathLength(values, shape, problems);
        Axis(values, shape, problems);
        Surroundings(values, shape, problems);
        Temperature(values, shape, problems);
        if (!hasRig)
            WithoutRig(values, shape, problems);
        KeyRelations.Uncertainty(values, problems, FlowKeys.PathLengthSigma, FlowKeys.PathLength);
        KeyRelations.Uncertainty(values, problems, FlowKeys.PressureSigma, FlowKeys.Pressure);
    }

    private static void PathLength(CaseValues values, FlowShape shape, CaseProblems problems)
    {
        bool length = values.Has(FlowKeys.PathLength);
        if (shape == FlowShape.Planar && !length)
            problems.Add(values.LineOf(FlowKeys.Shape), "flow.shape = \"planar\" needs path_length_mm, the length of the flow along the line of sight.");
        else if (shape == FlowShape.Axisymmetric && length)
            problems.Add(values.LineOf(FlowKeys.PathLength), "flow.path_length_mm is for shape = \"planar\"; the path through an axisymmetric flow follows from its shape, so remove the length.");
        else if (shape == FlowShape.PathIntegrated && length)
            problems.Add(values.LineOf(FlowKeys.PathLength), "flow.path_length_mm is for shape = \"planar\"; set that shape, or remove the length.");
    }

    private static void Axis(CaseValues values, FlowShape shape, CaseProblems problems)
    {
        if (shape != FlowShape.Axisymmetric)
        {
            foreach (CaseKey key in new CaseKey[] { FlowKeys.Axis, FlowKeys.AxisDirection, FlowKeys.Inversion }.Where(values.Has))
                problems.Add(values.LineOf(key), $"{key.FullName} is for shape = \"axisymmetric\"; set that shape, or remove the key.");
        }
        else if (values.Has(FlowKeys.AxisDirection) && values.Optional(FlowKeys.Axis)?.Line is not null)
        {
            problems.Add(values.LineOf(FlowKeys.AxisDirection), $"flow.axis_direction_deg is for an axis that is to be found, and axis ({values.LineOf(FlowKeys.Axis)}) gives it; remove one of them.");
        }
    }

    private static void Surroundings(CaseValues values, FlowShape shape, CaseProblems problems)
    {
        if (shape != FlowShape.Axisymmetric)
            return;
        foreach (CaseKey key in new CaseKey[] { FlowKeys.AmbientEdges, FlowKeys.AmbientRegions }.Where(values.Has))
            problems.Add(values.LineOf(key), $"{key.FullName} is for planar and path-integrated flows; an axisymmetric one is taken as undisturbed beyond the measured field, so remove the key.");
    }

    private static void Temperature(CaseValues values, FlowShape shape, CaseProblems problems)
    {
        if (!values.Has(FlowKeys.Pressure))
            return;
        CasePlace line = values.LineOf(FlowKeys.Pressure);
        if (values.Or(FlowKeys.Temperature, TemperatureModel.IdealGas) == TemperatureModel.None)
            problems.Add(line, $"flow.pressure_pa is for the temperature, and temperature = \"none\" ({values.LineOf(FlowKeys.Temperature)}) asks for none; remove one of them.");
        else if (shape == FlowShape.PathIntegrated)
            problems.Add(line, "flow.pressure_pa is for the temperature, which a path-integrated flow does not give; set shape = \"planar\" or \"axisymmetric\", or remove the pressure.");
    }

    private static void WithoutRig(CaseValues values, FlowShape shape, CaseProblems problems)
    {
        if (shape != FlowShape.PathIntegrated)
        {
            string word = FlowKeys.Shape.Choices.First(choice => choice.Value == shape).Word;
            problems.Add(values.LineOf(FlowKeys.Shape), $"flow.shape = \"{word}\" needs the distances of [rig], without which only displacements in px are measured; give them, or remove the key.");
        }

        foreach (CaseKey key in new CaseKey[] { FlowKeys.AmbientEdges, FlowKeys.AmbientRegions }.Where(values.Has))
            problems.Add(values.LineOf(key), $"{key.FullName} needs the distances of [rig], without which only displacements in px are measured; give them, or remove the key.");
    }
}
