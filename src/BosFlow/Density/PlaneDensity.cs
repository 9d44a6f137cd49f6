using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>Density of a planar flow, and path integrals of any flow, by integration over the picture.</summary>
internal static class PlaneDensity
{
    private const double LargestResidual = 2;

    public static DensityResult Convert(DensityRequest request, CancellationToken cancellationToken)
    {
        SightlineField field = SightlineField.Of(request.Mean);
        if (!field.IsKnown.Contains(true))
            return NothingMeasured(request);
        const VectorFlags NeverMeasured = VectorFlags.Masked | VectorFlags.OutOfFrame;
        bool[] isSolid = [.. request.Mean.PrevailingFlags.Select((flags, node) => (flags & NeverMeasured) != VectorFlags.None && !field.IsKnown[node])];
        PlaneIntegration integration = PlaneIntegration.Of(
            field, isSolid, request.Flow, request.ErrorCorrelation, request.Threads, cancellationToken);
        return request.Flow.Shape == FlowShape.Planar ? Planar(request, integration) : PathIntegrated(request, integration);
    }

    private static DensityResult Planar(DensityRequest request, PlaneIntegration integration)
    {
        NodeGrid grid = request.Mean.Grid;
        var inputs = new ConversionInputs(request.Rig, request.Gas, request.Flow);
        var conversion = new DensityConversion(inputs);
        UnitField unit = integration.Field;
        var excess = new UnitField(Scaled(unit.Values, Factor(conversion)), Scaled(unit.Sigma, Math.Abs(Factor(conversion))), unit.Flags);
        var states = new StateField(conversion, excess.Values, excess.Sigma);
        foreach (UncertainInput input in UncertainInputs.Of(inputs))
            states.Add(input.Source, input.Input, input.Raised is { } raised ? States(raised, unit.Values) : null);
        bool isAnchored = integration.AmbientNodes > 0;
        DensityFlags[] flags = ResultFields.Flags(excess, states);
        int place = isAnchored ? ResultFields.BudgetPlace(excess) : -1;
        return new DensityResult
        {
            Shape = FlowShape.Planar,
            Grid = grid,
            Fields = ResultFields.Of(grid, states, conversion, excess, isAnchored),
            SigmaRandom = [.. states.SigmaRandom.Select(sigma => (float)sigma)],
            Flags = flags,
            NormalisedResidual = integration.NormalisedResidual,
            Budget = place < 0 ? null : states.Budget(place, grid.X(place % grid.Columns), grid.Y(place / grid.Columns), DensityWords.Displacement(request.Mean)),
            Checks = Checks(integration),
            Methods = DensityWords.PlanarMethods(request, conversion, integration.AmbientNodes),
            Warnings = DensityWords.Warnings(request, conversion, flags, isAnchored),
        };
    }

    private static DensityResult PathIntegrated(DensityRequest request, PlaneIntegration integration)
    {
        NodeGrid grid = request.Mean.Grid;
        var conversion = new DensityConversion(new ConversionInputs(request.Rig, request.Gas, request.Flow));
        double factor = conversion.IndexGradientPathPerPixel * conversion.FlowMetresPerPixel * conversion.DensityPerIndex;
        float[] values = [.. Scaled(integration.Field.Values, factor).Select(value => (float)value)];
        float[] random = [.. Scaled(integration.Field.Sigma, Math.Abs(factor)).Select(value => (float)value)];
        float[] total = Total(request, integration, values, random);
        return new DensityResult
        {
            Shape = FlowShape.PathIntegrated,
            Grid = grid,
            Fields = [new ScalarField("density_path", "Density, difference to the surroundings integrated along the line of sight", "kg m-2", grid, values, total)],
            SigmaRandom = random,
            Flags = integration.Field.Flags,
            NormalisedResidual = integration.NormalisedResidual,
            Checks = Checks(integration),
            Methods = DensityWords.PathMethods(integration.AmbientNodes),
            Warnings = DensityWords.Warnings(request, conversion, integration.Field.Flags, isAnchored: true),
        };
    }

    private static float[] Total(DensityRequest request, PlaneIntegration integration, float[] values, float[] random)
    {
        double[] variance = [.. random.Select(sigma => (double)sigma * sigma)];
        foreach (UncertainInput input in UncertainInputs.Of(new ConversionInputs(request.Rig, request.Gas, request.Flow)))
        {
            if (input.Raised is not { } raised)
                continue;
            var other = new DensityConversion(raised);
            double factor = other.IndexGradientPathPerPixel * other.FlowMetresPerPixel * other.DensityPerIndex;
            for (int node = 0; node < values.Length; node++)
            {
                double change = (integration.Field.Values[node] * factor) - values[node];
                variance[node] += change * change;
            }
        }

        return [.. variance.Select(value => (float)Math.Sqrt(value))];
    }

    private static GasState[] States(ConversionInputs raised, double[] unit)
    {
        var conversion = new DensityConversion(raised);
        double factor = Factor(conversion);
        return [.. unit.Select(value => conversion.At(value * factor))];
    }

    /// <summary>Index excess for 1 px2 of integrated displacement.</summary>
    private static double Factor(DensityConversion conversion) =>
        conversion.IndexGradientPathPerPixel * conversion.FlowMetresPerPixel / conversion.PathLengthMetres!.Value;

    private static double[] Scaled(double[] values, double factor) => [.. values.Select(value => value * factor)];

    private static IReadOnlyList<DataCheck> Checks(PlaneIntegration integration)
    {
        double ratio = integration.ResidualRms / integration.ExpectedResidualRms;
        return double.IsNaN(ratio)
            ? []
            : [new DataCheck("Residual of the integration over what the stated uncertainties make of it (a curl in the measured gradient makes it large)", ratio, "1", "about 1", ratio < LargestResidual)];
    }

    private static DensityResult NothingMeasured(DensityRequest request) => new()
    {
        Shape = request.Flow.Shape,
        Grid = request.Mean.Grid,
        Fields = [],
        SigmaRandom = [],
        Flags = [.. Enumerable.Repeat(DensityFlags.NotMeasured, request.Mean.Grid.Count)],
        Warnings = ["No displacement was measured anywhere: no density can be given."],
    };
}
