using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Density of a round flow by Abel inversion at stations along its axis.</summary>
internal static class RoundDensity
{
    private const double LargestAsymmetry = 2;
    private const double LargestEdgeShare = 0.05;
    private const double SignificantEdge = 3;

    // Beyond this the answer depends on the model of the rays more than on anything measured.
    private const double LargestCurvedShare = 0.1;

    /// <summary>Whether an axis runs through the picture.</summary>
    public static bool Crosses(AxisLine axis, int width, int height) =>
        Frame(axis) is { } frame && StationLayout.Of(new NodeGrid(0, 0, 1, width, height), frame, 1).Count > 0;

    public static DensityResult Convert(DensityRequest request, CancellationToken cancellationToken)
    {
        SightlineField field = SightlineField.Of(request.Mean);
        double[] correlation = request.ErrorCorrelation;
        double alongOneAxis = (2 * correlation.Sum()) - 1;
        if ((request.Flow.Axis is { } line ? Given(field, line) : AxisFinder.Find(field, request.Flow.AxisDirectionDegrees, alongOneAxis * alongOneAxis)) is not var (axis, estimate))
            return Nothing(request, "No axis of symmetry was found in the displacement: no density can be given. Give the axis in the case file, or its direction, or use shape = \"path-integrated\".");
        var inputs = new ConversionInputs(request.Rig, request.Gas, request.Flow);
        var conversion = new DensityConversion(inputs);
        StationLayout layout = StationLayout.Of(field.Grid, axis, conversion.FlowMetresPerPixel);
        SightGeometry sight = Sight(request, conversion);
        var inversion = new RoundInversion(field, sight, correlation, new SlopeInversions());
        UnitProfile?[] profiles = inversion.Profiles(axis, layout, request.Threads, cancellationToken);
        if (layout.Count == 0 || profiles.All(profile => profile is null))
            return Nothing(request, "Too little displacement was measured about the axis: no density can be given.");

        UnitField section = CrossSection.Of(field.Grid, axis, layout, conversion.FlowMetresPerPixel, profiles);
        var states = new StateField(conversion, section.Values, section.Sigma);
        RoundProfiles round = RoundProfiles.Of(axis, layout, conversion, profiles);
        foreach (UncertainInput input in UncertainInputs.Of(inputs))
        {
            DensityConversion? raised = input.Raised is null ? null : new DensityConversion(input.Raised);
            double share = raised is null ? 1 : raised.IndexGradientPathPerPixel / conversion.IndexGradientPathPerPixel;
            states.Add(input.Source, input.Input, raised is null ? null : [.. section.Values.Select(value => raised.At(value * share))]);
            round.Add(input.Source, input.Input, raised, share);
        }

        AddAxis(request, estimate, inversion, axis, layout, conversion, states, round, cancellationToken);
        DensityFlags[] flags = ResultFields.Flags(section, states);
        int place = ResultFields.BudgetPlace(section);
        NodeGrid grid = field.Grid;
        UnitProfile[] inverted = [.. profiles.OfType<UnitProfile>()];
        return new DensityResult
        {
            Shape = FlowShape.Axisymmetric,
            Grid = grid,
            Fields = ResultFields.Of(grid, states, conversion, section, isAnchored: true),
            SigmaRandom = [.. states.SigmaRandom.Select(sigma => (float)sigma)],
            Flags = flags,
            Profiles = round.ToProfiles(),
            Axis = estimate,
            Budget = place < 0 ? null : states.Budget(place, grid.X(place % grid.Columns), grid.Y(place / grid.Columns), DensityWords.Displacement(request.Mean)),
            Checks = Checks(inverted, estimate),
            Methods = DensityWords.RoundMethods(request, conversion, estimate, inverted),
            Warnings = [.. DensityWords.Warnings(request, conversion, flags, isAnchored: true), .. Warnings(inverted, estimate)],
        };
    }

    private static AxisFrame? Frame(AxisLine line)
    {
        double x = line.X2 - line.X1;
        double y = line.Y2 - line.Y1;
        double length = Math.Sqrt((x * x) + (y * y));
        return length > 0 ? new AxisFrame(line.X1, line.Y1, x / length, y / length) : null;
    }

    private static (AxisFrame Frame, AxisEstimate Estimate)? Given(SightlineField field, AxisLine line)
    {
        AxisFrame frame = Frame(line)!.Value;
        double asymmetry = new MirrorSymmetry(field, 1).AsymmetryShare(frame);
        return (frame, new AxisEstimate(frame.X, frame.Y, AxisFinder.Folded(frame.DirectionDegrees), double.NaN, double.NaN, asymmetry, IsFound: false));
    }

    private static SightGeometry Sight(DensityRequest request, DensityConversion conversion) => new(
        request.Rig.LensToFlowMetres, request.Rig.LensToFlowMetres + request.Rig.FlowToBackgroundMetres, conversion.BackgroundMetresPerPixel, conversion.FlowMetresPerPixel,
        (request.Width - 1) / 2.0, (request.Height - 1) / 2.0, conversion.AmbientIndex);

    /// <summary>The uncertainty of the axis: everything is inverted anew about an axis moved, and one turned, by its standard uncertainty.</summary>
    private static void AddAxis(
        DensityRequest request, AxisEstimate estimate, RoundInversion inversion, AxisFrame axis, StationLayout layout, DensityConversion conversion, StateField states, RoundProfiles round, CancellationToken cancellationToken)
    {
        AddMoved("position of the axis", estimate.SigmaAcrossPixels, "px", axis.MovedRight(estimate.SigmaAcrossPixels));
        AddMoved("direction of the axis", estimate.SigmaDirectionDegrees, "degrees", AxisFrame.At(axis.X, axis.Y, axis.DirectionDegrees + estimate.SigmaDirectionDegrees));

        void AddMoved(string source, double sigma, string unit, AxisFrame moved)
        {
            if (double.IsNaN(sigma))
            {
                states.Add(source, "given, no uncertainty stated", null);
                round.Add(source, "given, no uncertainty stated", null, 1);
                return;
            }

            string input = FormattableString.Invariant($"found, ± {sigma:G2} {unit}");
            UnitProfile?[] profiles = inversion.Profiles(moved, layout, request.Threads, cancellationToken);
            UnitField section = CrossSection.Of(request.Mean.Grid, moved, layout, conversion.FlowMetresPerPixel, profiles);
            states.Add(source, input, [.. section.Values.Select(conversion.At)]);
            round.AddMoved(source, input, profiles);
        }
    }

    private static IReadOnlyList<DataCheck> Checks(UnitProfile[] profiles, AxisEstimate estimate)
    {
        double[] differences =
        [
            .. from profile in profiles
               from i in Enumerable.Range(0, profile.Excess.Length)
               where profile.SigmaDifference[i] > 0
               select (profile.Right[i] - profile.Left[i]) / profile.SigmaDifference[i],
        ];
        double rms = differences.Length == 0 ? double.NaN : Math.Sqrt(differences.Average(value => value * value));
        double curved = profiles.Max(profile => profile.CurvedShare);
        return
        [
            new DataCheck("Right half minus left half of the density, RMS in units of its standard uncertainty", rms, "1", "about 1", rms < LargestAsymmetry),
            new DataCheck("Difference of the displacement's two sides, RMS over RMS of the displacement", 100 * estimate.AsymmetryShare, "%", "small; noise alone gives the noise floor over the displacement", estimate.AsymmetryShare < 0.3),
            new DataCheck("Curvature of the rays: largest change of a deflection against a straight ray, over the largest deflection (corrected)", 100 * curved, "%", "below 10 %", curved < LargestCurvedShare),
        ];
    }

    private static IEnumerable<string> Warnings(UnitProfile[] profiles, AxisEstimate estimate)
    {
        int open = profiles.Count(profile => profile.EdgeShare > LargestEdgeShare && profile.EdgeSignificance > SignificantEdge);
        if (open > 0)
        {
            yield return FormattableString.Invariant(
                $"At {open} of {profiles.Length} stations the flow reaches the edge of the measured field (displacement there up to {100 * profiles.Max(profile => profile.EdgeShare):F0} % of the largest): what lies beyond is taken as undisturbed, so that the density reads too near to that of the surroundings.");
        }

        if (estimate.AsymmetryShare >= 0.3)
            yield return FormattableString.Invariant($"The two sides of the axis differ by {100 * estimate.AsymmetryShare:F0} % of the displacement: the flow is not round, or the axis is wrong; take the density as an estimate.");
        if (profiles.Any(profile => profile.CurvedShare >= LargestCurvedShare))
            yield return "The rays are so strongly curved that the density depends on how their paths are modelled: take it as an estimate.";
    }

    private static DensityResult Nothing(DensityRequest request, string reason) => new()
    {
        Shape = FlowShape.Axisymmetric,
        Grid = request.Mean.Grid,
        Fields = [],
        SigmaRandom = [],
        Flags = [.. Enumerable.Repeat(DensityFlags.NotMeasured, request.Mean.Grid.Count)],
        Warnings = [reason],
    };
}
