namespace BosFlow.Density;

/// <summary>Radial profiles of the refractive index of a round flow at all stations along its axis.</summary>
internal sealed class RoundInversion
{
    // Two or three radii carry no shape.
    private const int FewestRadii = 4;
    private const double Contradiction = 3;
    private readonly SightlineField field;
    private readonly SightGeometry sight;
    private readonly double[] correlation;
    private readonly SlopeInversions inversions;

    /// <summary>Prepares the inversion of a field.</summary>
    /// <param name="field">Displacement with sigma.</param>
    /// <param name="sight">Lines of sight.</param>
    /// <param name="correlation">Correlation of the errors by distance in nodes.</param>
    /// <param name="inversions">The inversion for straight rays.</param>
    public RoundInversion(SightlineField field, SightGeometry sight, double[] correlation, SlopeInversions inversions)
    {
        this.field = field;
        this.sight = sight;
        this.correlation = correlation;
        this.inversions = inversions;
    }

    /// <summary>Profiles at the stations of a layout.</summary>
    /// <param name="axis">The axis.</param>
    /// <param name="layout">Stations and radii.</param>
    /// <param name="threads">Threads; the result does not depend on them.</param>
    /// <param name="cancellationToken">Stops between two stations.</param>
    /// <returns>One for each station; null where too little was measured.</returns>
    public UnitProfile?[] Profiles(AxisFrame axis, StationLayout layout, int threads, CancellationToken cancellationToken)
    {
        var sampling = new SlopeSampling(new NodeSampler(field.Grid, field.IsKnown), sight, axis);
        var profiles = new UnitProfile?[layout.Count];
        Parallel.For(
            0, layout.Count, Options(threads, cancellationToken),
            () => new DisplacementErrors(field, correlation),
            (station, _, errors) =>
            {
                profiles[station] = Profile(sampling, errors, layout, layout.Along(station));
                return errors;
            },
            _ => { });
        return profiles;
    }

    /// <summary>The index excess alone, for comparisons: one array for each station; null where too little was measured.</summary>
    public double[]?[] Excesses(AxisFrame axis, StationLayout layout, int threads, CancellationToken cancellationToken)
    {
        var sampling = new SlopeSampling(new NodeSampler(field.Grid, field.IsKnown), sight, axis);
        var excesses = new double[]?[layout.Count];
        Parallel.For(0, layout.Count, Options(threads, cancellationToken), station =>
        {
            (SlopeProfile mean, _, _) = Sample(sampling, layout, layout.Along(station));
            if (mean.Count >= FewestRadii)
                excesses[station] = Invert(mean, layout).Excess;
        });
        return excesses;
    }

    private static ParallelOptions Options(int threads, CancellationToken cancellationToken) => new() { MaxDegreeOfParallelism = threads, CancellationToken = cancellationToken };

    private static (SlopeProfile Mean, SlopeProfile Right, SlopeProfile Left) Sample(SlopeSampling sampling, StationLayout layout, double along)
    {
        SlopeProfile right = sampling.Side(along, layout.RadialStepMetres, layout.MostRadii, 1);
        SlopeProfile left = sampling.Side(along, layout.RadialStepMetres, layout.MostRadii, -1);
        return (SlopeProfile.Mean(right, left), right, left);
    }

    private (double[] Excess, double Share) Invert(SlopeProfile mean, StationLayout layout) =>
        CurvedRays.Invert(mean.Values(field.U, field.V), inversions.Of(mean.Count), layout.RadialStepMetres, sight.AmbientIndex);

    private UnitProfile? Profile(SlopeSampling sampling, DisplacementErrors errors, StationLayout layout, double along)
    {
        (SlopeProfile mean, SlopeProfile right, SlopeProfile left) = Sample(sampling, layout, along);
        int count = mean.Count;
        if (count < FewestRadii)
            return null;
        double[] slope = mean.Values(field.U, field.V);
        double[] covariance = errors.Covariance(mean);
        (double[] excess, double share) = Invert(mean, layout);
        SlopeProfile difference = SlopeProfile.Difference(right, left);
        double[] rightExcess = OneSide(right, difference.Count, count);
        double[] leftExcess = OneSide(left, difference.Count, count);
        double[] sigmaDifference = SigmaDifference(difference, errors, count);
        double largest = slope.Max(Math.Abs);
        return new UnitProfile
        {
            Along = along,
            Excess = excess,
            Sigma = inversions.Of(count).Sigma(covariance),
            Left = leftExcess,
            Right = rightExcess,
            SigmaDifference = sigmaDifference,
            Flags = [.. Enumerable.Range(0, count).Select(i => Flag(mean, leftExcess, rightExcess, sigmaDifference, i))],
            CurvedShare = share,
            EdgeShare = largest > 0 ? Math.Abs(slope[count - 1]) / largest : 0,
            EdgeSignificance = Math.Abs(slope[count - 1]) / Math.Sqrt(covariance[^1]),
        };
    }

    /// <summary>Profile of one side as far as both sides reach: the rest of the longer one would have nothing to be compared with.</summary>
    private double[] OneSide(SlopeProfile side, int common, int count)
    {
        double[] profile = Unknown(count);
        if (common >= FewestRadii)
            inversions.Of(common).Apply(side.Values(field.U, field.V)[..common]).CopyTo(profile, 0);
        return profile;
    }

    private double[] SigmaDifference(SlopeProfile difference, DisplacementErrors errors, int count)
    {
        double[] sigma = Unknown(count);
        if (difference.Count >= FewestRadii)
            inversions.Of(difference.Count).Sigma(errors.Covariance(difference)).CopyTo(sigma, 0);
        return sigma;
    }

    private static double[] Unknown(int count)
    {
        double[] values = new double[count];
        Array.Fill(values, double.NaN);
        return values;
    }

    private static DensityFlags Flag(SlopeProfile mean, double[] left, double[] right, double[] sigmaDifference, int i)
    {
        DensityFlags flag = mean.IsBridged[i] ? DensityFlags.Bridged : DensityFlags.None;
        return Math.Abs(right[i] - left[i]) > Contradiction * sigmaDifference[i] ? flag | DensityFlags.Asymmetric : flag;
    }
}
