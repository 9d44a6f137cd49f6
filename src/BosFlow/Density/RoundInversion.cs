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
    /// <param name="inversions">The inversions for straight rays.</param>
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

    /// <summary>The index excess alone, by the inversions of other profiles, for comparisons: one array for each station, as long as there; null where there is none.</summary>
    /// <param name="axis">The axis.</param>
    /// <param name="layout">Stations and radii.</param>
    /// <param name="basis">The profiles to be compared with. Where this field does not reach as far as they do, their slopes stand in.</param>
    /// <param name="threads">Threads; the result does not depend on them.</param>
    /// <param name="cancellationToken">Stops between two stations.</param>
    public double[]?[] Excesses(AxisFrame axis, StationLayout layout, UnitProfile?[] basis, int threads, CancellationToken cancellationToken)
    {
        var sampling = new SlopeSampling(new NodeSampler(field.Grid, field.IsKnown), sight, axis);
        var excesses = new double[]?[layout.Count];
        Parallel.For(0, layout.Count, Options(threads, cancellationToken), station =>
        {
            if (basis[station] is not { } profile)
                return;
            double[] sampled = Sample(sampling, layout, layout.Along(station)).Mean.Values(field.U, field.V);
            double[] slope = [.. sampled.Take(profile.Slope.Length), .. profile.Slope.Skip(sampled.Length)];
            // Between two fields that differ by an uncertainty the rays' curvature changes by a small part of a small part.
            excesses[station] = profile.Inverse.Apply([.. slope.Zip(profile.Correction, (sample, bend) => sample - bend)]);
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

    private UnitProfile? Profile(SlopeSampling sampling, DisplacementErrors errors, StationLayout layout, double along)
    {
        (SlopeProfile mean, SlopeProfile right, SlopeProfile left) = Sample(sampling, layout, along);
        int count = mean.Count;
        if (count < FewestRadii)
            return null;
        double[] slope = mean.Values(field.U, field.V);
        double[] covariance = errors.Covariance(mean);
        SlopeInversion inverse = inversions.For(slope, covariance);
        (double[] excess, double[] correction, double share) = CurvedRays.Invert(slope, inverse, layout.RadialStepMetres, sight.AmbientIndex);
        double[] rightExcess = OneSide(right, slope, correction, inverse);
        double[] leftExcess = OneSide(left, slope, correction, inverse);
        double[] sigmaDifference = SigmaDifference(SlopeProfile.Difference(right, left), inverse, errors, count);
        double largest = slope.Max(Math.Abs);
        // The profile at a radius follows from the slopes there and further out: a gap takes away all that lies within it.
        int lost = Array.LastIndexOf(mean.IsLost, true) + 1;
        foreach (double[] values in (double[][])[excess, rightExcess, leftExcess, sigmaDifference])
            values.AsSpan(0, lost).Fill(double.NaN);
        return new UnitProfile
        {
            Along = along,
            Slope = slope,
            Correction = correction,
            Inverse = inverse,
            Excess = excess,
            Sigma = inverse.Sigma(covariance),
            Left = leftExcess,
            Right = rightExcess,
            SigmaDifference = sigmaDifference,
            Flags = [.. Enumerable.Range(0, count).Select(i => i < lost ? DensityFlags.NotMeasured : Flag(mean, leftExcess, rightExcess, sigmaDifference, i))],
            CurvedShare = share,
            EdgeShare = largest > 0 ? Math.Abs(slope[count - 1]) / largest : 0,
            EdgeSignificance = Math.Abs(slope[count - 1]) / Math.Sqrt(covariance[^1]),
        };
    }

    /// <summary>Profile of one side as far as it reaches; what lies beyond is taken from both together, so that two sides of unequal reach can be compared.</summary>
    private double[] OneSide(SlopeProfile side, double[] both, double[] correction, SlopeInversion inverse)
    {
        double[] slope = [.. side.Values(field.U, field.V), .. both.Skip(side.Count)];
        double[] profile = inverse.Apply([.. slope.Zip(correction, (sample, bend) => sample - bend)]);
        profile.AsSpan(side.Count).Fill(double.NaN);
        return profile;
    }

    /// <summary>Standard uncertainty of right minus left as far as both reach; beyond, their slopes are the same.</summary>
    private static double[] SigmaDifference(SlopeProfile difference, SlopeInversion inverse, DisplacementErrors errors, int count)
    {
        double[] inner = errors.Covariance(difference);
        double[] covariance = new double[count * count];
        for (int i = 0; i < difference.Count; i++)
            inner.AsSpan(i * difference.Count, difference.Count).CopyTo(covariance.AsSpan(i * count));
        double[] sigma = inverse.Sigma(covariance);
        sigma.AsSpan(difference.Count).Fill(double.NaN);
        return sigma;
    }

    private static DensityFlags Flag(SlopeProfile mean, double[] left, double[] right, double[] sigmaDifference, int i)
    {
        DensityFlags flag = mean.IsBridged[i] ? DensityFlags.Bridged : DensityFlags.None;
        return Math.Abs(right[i] - left[i]) > Contradiction * sigmaDifference[i] ? flag | DensityFlags.Asymmetric : flag;
    }
}
