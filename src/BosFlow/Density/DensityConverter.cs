using BosFlow.Numerics.Integration;
using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>From the mean displacement of a run to density, refractive index and temperature with their uncertainty.</summary>
public static class DensityConverter
{
    /// <summary>Whether a case asks for a density (or its path integral) at all.</summary>
    /// <param name="flow">What the case says of the flow.</param>
    public static bool IsWanted(FlowSettings flow)
    {
        ArgumentNullException.ThrowIfNull(flow);
        return flow.Shape != FlowShape.PathIntegrated || flow.AmbientEdges != PictureEdge.None || flow.AmbientRegions.Count > 0;
    }

    /// <summary>Checks, before any frame is measured, whether the settings allow a density.</summary>
    /// <param name="rig">Distances and camera.</param>
    /// <param name="gas">Gas in the flow and around.</param>
    /// <param name="flow">Shape, surroundings, pressure of the flow.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <exception cref="ConfigurationException">Something is missing or out of range; one sentence for each problem.</exception>
    public static void Check(RigGeometry rig, GasSettings gas, FlowSettings flow, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(rig);
        ArgumentNullException.ThrowIfNull(flow);
        var inputs = new ConversionInputs(rig, gas, flow);
        _ = new DensityConversion(inputs);
        foreach (UncertainInput input in UncertainInputs.Of(inputs))
            CheckRaised(input);
        if (flow.Shape == FlowShape.Planar && rig.PathLengthMetres is null)
            throw Problem("A planar flow needs the length of the light's path through it: give path_length_mm.");
        if (flow.Axis is AxisLine axis && !RoundDensity.Crosses(axis, width, height))
        {
            throw Problem(FormattableString.Invariant(
                $"The axis from ({axis.X1}, {axis.Y1}) to ({axis.X2}, {axis.Y2}) px does not run through the picture of {width} x {height} px: give two different points on it in px of the reference picture."));
        }
    }

    /// <summary>Converts.</summary>
    /// <param name="request">Displacement, rig, gas and flow.</param>
    /// <param name="cancellationToken">Stops between two steps.</param>
    /// <returns>The fields with their uncertainty. Where nothing can be given (no axis of symmetry, nothing measured), no field and a warning that says why.</returns>
    /// <exception cref="ConfigurationException">The settings do not allow a density; see <see cref="Check"/>.</exception>
    public static DensityResult Convert(DensityRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        Check(request.Rig, request.Gas, request.Flow, request.Width, request.Height);
        return request.Flow.Shape == FlowShape.Axisymmetric ? RoundDensity.Convert(request, cancellationToken) : Integrated(request, cancellationToken);
    }

    private static DensityResult Integrated(DensityRequest request, CancellationToken cancellationToken)
    {
        try
        {
            return PlaneDensity.Convert(request, cancellationToken);
        }
        catch (NotConvergedException problem)
        {
            // A night's vectors must not be lost for it: the run goes on to its summary, without a density.
            return ResultFields.Nothing(request, $"The displacement could not be integrated, so that no density can be given: {problem.Message} Leave out parts that only thin bridges of vectors join (region.exclude).");
        }
    }

    private static void CheckRaised(UncertainInput input)
    {
        try
        {
            if (input.Raised is { } raised)
                _ = new DensityConversion(raised);
        }
        catch (ConfigurationException problem)
        {
            throw Problem($"The uncertainty of the {input.Source} ({input.Input}) is too large to work with: {problem.Message}");
        }
    }

    private static ConfigurationException Problem(string sentence) => new([sentence]);
}
