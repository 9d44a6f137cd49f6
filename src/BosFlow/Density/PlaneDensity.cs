using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>Density of a planar flow, and path integrals of any flow, by integration over the picture.</summary>
internal sealed class PlaneDensity
{
    private const double LargestResidual = 2;
    private const VectorFlags NeverMeasured = VectorFlags.Masked | VectorFlags.OutOfFrame;
    private readonly DensityRequest request;
    private readonly SightlineField field;
    private readonly ConversionInputs inputs;
    private readonly PlaneIntegration integration;
    private readonly (string Source, string Input, double[]? Values)[] raisedFields;

    private PlaneDensity(DensityRequest request, SightlineField field, CancellationToken cancellationToken)
    {
        this.request = request;
        this.field = field;
        inputs = new ConversionInputs(request.Rig, request.Gas, request.Flow);
        bool[] isSolid = [.. request.Mean.PrevailingFlags.Select((flags, node) => (flags & NeverMeasured) != VectorFlags.None && !field.IsKnown[node])];
        integration = PlaneIntegration.Of(field, isSolid, request, cancellationToken);
        (string Source, string Input, SightlineField? Field)[] raised =
        [
            (DensityWords.BiasSource, DensityWords.Bias(request.Bias), field.With(request.Bias)),
            (DensityWords.AveragingSource, DensityWords.Averaging(field), WindowAveraging.IsPossible(field.Grid) ? WindowAveraging.Restored(field, request.MissingPerFourthDifference) : null),
            (DensityWords.BackgroundScaleSource, DensityWords.BackgroundScale(request.Background), request.Background.WithScale(field)),
            (DensityWords.BackgroundShiftSource(true), DensityWords.BackgroundShift(request.Background), request.Background.WithShift(field, alongX: true)),
            (DensityWords.BackgroundShiftSource(false), DensityWords.BackgroundShift(request.Background), request.Background.WithShift(field, alongX: false)),
        ];
        raisedFields = [.. raised.Select(one => (one.Source, one.Input, one.Field is null ? null : PlaneIntegration.Values(one.Field, isSolid, request, cancellationToken)))];
    }

    /// <summary>Converts.</summary>
    public static DensityResult Convert(DensityRequest request, CancellationToken cancellationToken)
    {
        SightlineField field = SightlineField.Of(request.Mean, request.Bias.Pixels);
        if (!field.IsKnown.Contains(true))
            return ResultFields.Nothing(request, "No displacement was measured anywhere: no density can be given.");
        var density = new PlaneDensity(request, field, cancellationToken);
        return request.Flow.Shape == FlowShape.Planar ? density.Planar() : density.PathIntegrated();
    }

    /// <summary>Index excess for 1 px2 of integrated displacement.</summary>
    private static double IndexFactor(DensityConversion conversion) =>
        conversion.IndexGradientPathPerPixel * conversion.FlowMetresPerPixel / conversion.PathLengthMetres!.Value;

    /// <summary>Path integral of the density's difference for 1 px2, kg m-2.</summary>
    private static double PathFactor(DensityConversion conversion) =>
        conversion.IndexGradientPathPerPixel * conversion.FlowMetresPerPixel * conversion.DensityPerIndex;

    private static double[] Scaled(double[] values, double factor) => [.. values.Select(value => value * factor)];

    private DensityResult Planar()
    {
        NodeGrid grid = field.Grid;
        var conversion = new DensityConversion(inputs);
        double factor = IndexFactor(conversion);
        var excess = new UnitField(Scaled(integration.Field.Values, factor), Scaled(integration.Field.Sigma, Math.Abs(factor)), integration.Field.Flags);
        var states = new StateField(conversion, excess.Values, excess.Sigma);
        foreach (UncertainInput input in UncertainInputs.Of(inputs))
            states.Add(input.Source, input.Input, input.Raised is { } raised ? States(raised) : null);
        foreach ((string source, string input, double[]? values) in raisedFields)
            states.Add(source, input, values is null ? null : [.. values.Select(value => conversion.At(value * factor))]);
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
            Budget = place < 0 ? null : states.Budget(place, grid.X(place % grid.Columns), grid.Y(place / grid.Columns), DensityWords.Displacement(field)),
            Checks = Checks(),
            Methods = DensityWords.PlanarMethods(request, conversion, integration.AmbientNodes),
            Warnings = DensityWords.Warnings(request, conversion, flags, isAnchored),
        };
    }

    private DensityResult PathIntegrated()
    {
        var conversion = new DensityConversion(inputs);
        double factor = PathFactor(conversion);
        double[] values = Scaled(integration.Field.Values, factor);
        double[] random = Scaled(integration.Field.Sigma, Math.Abs(factor));
        return new DensityResult
        {
            Shape = FlowShape.PathIntegrated,
            Grid = field.Grid,
            Fields = [new ScalarField("density_path", "Density, difference to the surroundings integrated along the line of sight", "kg m-2", field.Grid, [.. values.Select(value => (float)value)], TotalOfPath(values, random, factor))],
            SigmaRandom = [.. random.Select(value => (float)value)],
            Flags = integration.Field.Flags,
            NormalisedResidual = integration.NormalisedResidual,
            Checks = Checks(),
            Methods = DensityWords.PathMethods(integration.AmbientNodes),
            Warnings = DensityWords.Warnings(request, conversion, integration.Field.Flags, integration.AmbientNodes > 0),
        };
    }

    private float[] TotalOfPath(double[] values, double[] random, double factor)
    {
        double[][] others =
        [
            .. raisedFields.Where(raised => raised.Values is not null).Select(raised => Scaled(raised.Values!, factor)),
            .. UncertainInputs.Of(inputs).Where(input => input.Raised is not null).Select(input => Scaled(integration.Field.Values, PathFactor(new DensityConversion(input.Raised!)))),
        ];
        return [.. values.Select((value, node) => (float)Math.Sqrt((random[node] * random[node]) + others.Sum(other => (other[node] - value) * (other[node] - value))))];
    }

    private GasState[] States(ConversionInputs raised)
    {
        var conversion = new DensityConversion(raised);
        double factor = IndexFactor(conversion);
        return [.. integration.Field.Values.Select(value => conversion.At(value * factor))];
    }

    private IReadOnlyList<DataCheck> Checks()
    {
        double ratio = integration.ResidualRms / integration.ExpectedResidualRms;
        return double.IsNaN(ratio)
            ? []
            : [new DataCheck("Residual of the integration over what the stated uncertainties make of it (a curl in the measured gradient makes it large)", ratio, "1", "about 1, below 2", ratio < LargestResidual)];
    }
}
