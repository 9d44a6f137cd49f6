using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Density of a round flow by Abel inversion at stations along its axis.</summary>
internal sealed class RoundDensity
{
    private readonly DensityRequest request;
    private readonly SightlineField field;
    private readonly AxisFrame axis;
    private readonly ConversionInputs inputs;
    private readonly DensityConversion conversion;
    private readonly StationLayout layout;
    private readonly SlopeInversions inversions;

    private RoundDensity(DensityRequest request, SightlineField field, AxisFrame axis)
    {
        this.request = request;
        this.field = field;
        this.axis = axis;
        inputs = new ConversionInputs(request.Rig, request.Gas, request.Flow);
        conversion = new DensityConversion(inputs);
        inversions = new SlopeInversions(request.Flow.Inversion);
        // The correlation reaches as many nodes as a window.
        double radialNodes = Math.Max(StationLayout.RadialNodes, request.ErrorCorrelation.Length / 4.0);
        layout = StationLayout.Of(field.Grid, axis, conversion.FlowMetresPerPixel, radialNodes);
    }

    /// <summary>Whether an axis runs through the picture.</summary>
    public static bool Crosses(AxisLine axis, int width, int height) =>
        AxisFrame.Through(axis) is { } frame && StationLayout.Of(new NodeGrid(0, 0, 1, width, height), frame, 1).Count > 0;

    /// <summary>Converts.</summary>
    public static DensityResult Convert(DensityRequest request, CancellationToken cancellationToken)
    {
        SightlineField field = SightlineField.Of(request.Mean, request.Bias.Pixels);
        if (FindAxis(request, field) is not var (axis, estimate))
            return ResultFields.Nothing(request, "No axis of symmetry was found in the displacement: no density can be given. Give the axis in the case file, or its direction, or use shape = \"path-integrated\".");
        return new RoundDensity(request, field, axis).Convert(estimate, cancellationToken);
    }

    private static (AxisFrame Frame, AxisEstimate Estimate)? FindAxis(DensityRequest request, SightlineField field)
    {
        if (request.Flow.Axis is not { } line)
        {
            double alongOneAxis = (2 * request.ErrorCorrelation.Sum()) - 1;
            return AxisFinder.Find(field, request.Flow.AxisDirectionDegrees, alongOneAxis * alongOneAxis);
        }

        AxisFrame frame = AxisFrame.Through(line)!.Value;
        double asymmetry = new MirrorSymmetry(field, 1).AsymmetryShare(frame);
        return (frame, new AxisEstimate(frame.X, frame.Y, AxisFinder.Folded(frame.DirectionDegrees), double.NaN, double.NaN, asymmetry, IsFound: false));
    }

    private DensityResult Convert(AxisEstimate estimate, CancellationToken cancellationToken)
    {
        UnitProfile?[] profiles = Inversion(field).Profiles(axis, layout, request.Threads, cancellationToken);
        UnitProfile[] inverted = [.. profiles.OfType<UnitProfile>()];
        if (inverted.Length == 0)
            return ResultFields.Nothing(request, "Too little displacement was measured about the axis: no density can be given.");
        NodeGrid grid = field.Grid;
        UnitField section = CrossSection.Of(grid, axis, layout, conversion.FlowMetresPerPixel, profiles);
        var states = new StateField(conversion, section.Values, section.Sigma);
        RoundProfiles round = RoundProfiles.Of(axis, layout, conversion, profiles);
        AddInputs(section, states, round);
        AddAxis(estimate, profiles, states, round, cancellationToken);
        AddOther(DensityWords.BiasSource, DensityWords.Bias(request.Bias), field.With(request.Bias), axis, profiles, states, round, cancellationToken);
        AddAveraging(profiles, states, round, cancellationToken);
        AddOther(DensityWords.BackgroundScaleSource, DensityWords.BackgroundScale(request.Background), request.Background.WithScale(field), axis, profiles, states, round, cancellationToken);
        DensityFlags[] flags = ResultFields.Flags(section, states);
        double noiseShare = new MirrorSymmetry(field, 1).NoiseShare();
        int place = ResultFields.BudgetPlace(section);
        return new DensityResult
        {
            Shape = FlowShape.Axisymmetric,
            Grid = grid,
            Fields = ResultFields.Of(grid, states, conversion, section, isAnchored: true),
            SigmaRandom = [.. states.SigmaRandom.Select(sigma => (float)sigma)],
            Flags = flags,
            Profiles = round.ToProfiles(),
            Axis = estimate,
            Budget = place < 0 ? null : states.Budget(place, grid.X(place % grid.Columns), grid.Y(place / grid.Columns), DensityWords.Displacement(field)),
            Checks = RoundChecks.Of(inverted, estimate, noiseShare),
            Methods = DensityWords.RoundMethods(request, conversion, estimate, inverted),
            Warnings = [.. DensityWords.Warnings(request, conversion, flags, isAnchored: true), .. RoundChecks.Warnings(inverted, estimate, noiseShare)],
        };
    }

    private RoundInversion Inversion(SightlineField displacement) =>
        new(displacement, SightGeometry.Of(request, conversion), request.ErrorCorrelation, inversions);

    private void AddInputs(UnitField section, StateField states, RoundProfiles round)
    {
        foreach (UncertainInput input in UncertainInputs.Of(inputs))
        {
            DensityConversion? raised = input.Raised is null ? null : new DensityConversion(input.Raised);
            double share = raised is null ? 1 : raised.IndexGradientPathPerPixel / conversion.IndexGradientPathPerPixel;
            states.Add(input.Source, input.Input, raised is null ? null : [.. section.Values.Select(value => raised.At(value * share))]);
            round.Add(input.Source, input.Input, raised, share);
        }
    }

    /// <summary>The uncertainty of the axis: everything is inverted anew about an axis moved, and one turned, by its standard uncertainty.</summary>
    private void AddAxis(AxisEstimate estimate, UnitProfile?[] profiles, StateField states, RoundProfiles round, CancellationToken cancellationToken)
    {
        const string Position = "position of the axis";
        const string Direction = "direction of the axis";
        if (double.IsNaN(estimate.SigmaAcrossPixels) || double.IsNaN(estimate.SigmaDirectionDegrees))
        {
            AddUnstated(Position, "given, no uncertainty stated", states, round);
            AddUnstated(Direction, "given, no uncertainty stated", states, round);
            return;
        }

        AddOther(
            Position, FormattableString.Invariant($"found, ± {estimate.SigmaAcrossPixels:G2} px"), field, axis.MovedRight(estimate.SigmaAcrossPixels), profiles, states, round, cancellationToken);
        AddOther(
            Direction, FormattableString.Invariant($"found, ± {estimate.SigmaDirectionDegrees:G2} degrees"), field,
            AxisFrame.At(axis.X, axis.Y, axis.DirectionDegrees + estimate.SigmaDirectionDegrees), profiles, states, round, cancellationToken);
    }

    private void AddAveraging(UnitProfile?[] profiles, StateField states, RoundProfiles round, CancellationToken cancellationToken)
    {
        string input = DensityWords.Averaging(field);
        if (WindowAveraging.IsPossible(field.Grid))
            AddOther(DensityWords.AveragingSource, input, WindowAveraging.Restored(field, request.MissingPerFourthDifference), axis, profiles, states, round, cancellationToken);
        else
            AddUnstated(DensityWords.AveragingSource, input, states, round);
    }

    private static void AddUnstated(string source, string input, StateField states, RoundProfiles round)
    {
        states.Add(source, input, null);
        round.Add(source, input, null, 1);
    }

    private void AddOther(
        string source, string input, SightlineField otherField, AxisFrame otherAxis, UnitProfile?[] profiles, StateField states, RoundProfiles round, CancellationToken cancellationToken)
    {
        double[]?[] excesses = Inversion(otherField).Excesses(otherAxis, layout, profiles, request.Threads, cancellationToken);
        double[] section = CrossSection.Values(field.Grid, otherAxis, layout, conversion.FlowMetresPerPixel, excesses);
        // Where a moved axis reaches a node no more, nothing is known of the change: none is added.
        states.Add(source, input, [.. section.Select((value, node) => double.IsNaN(value) ? states.States[node] : conversion.At(value))]);
        round.AddMoved(source, input, excesses);
    }
}
