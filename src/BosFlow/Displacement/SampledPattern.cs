namespace BosFlow.Displacement;

/// <summary>The fine end of a pattern's spectrum along one axis, as blurred dots have it, and the noise of its picture.</summary>
/// <remarks>
/// <para>
/// Grey levels along a line of a picture have the power p(w) = n + sum over m of P(w + 2 pi m): n the variance of noise that differs from pixel to pixel, P the pattern's own power (<see cref="DotPower"/>) of which the pixels show waves shorter than two pixels
/// as longer ones.
/// </para>
/// <para>Height, disc, blur and n are those of the greatest likelihood of the periodogram's mean, sum of ln p + measured / p least (P. Whittle 1953, from memory).</para>
/// </remarks>
/// <param name="Height">Power of the longest waves, DN^2 px.</param>
/// <param name="Dot">Shape of the dots.</param>
/// <param name="Noise">n, DN^2.</param>
internal sealed record SampledPattern(double Height, DotPower Dot, double Noise)
{
    private const int Rounds = 4;

    // The longest waves show light and how evenly the dots lie over a whole stretch, which the families do not know.
    private const int FirstFitted = 4;

    // What another shape than the Gaussian has to gain, in natural logarithms of the likelihood; stretches overlap and lie in neighbouring lines, a third of them counts. Judgement.
    private const double LeastGain = 4, IndependentShare = 1.0 / 3;

    private static readonly (DotPower Dot, double[] Folded)[][] Families = [.. DotFamily.All.Select(family => family.Dots.Zip(family.Folded(Frequencies())).ToArray())];

    /// <summary>Power of the pattern itself at a frequency beyond the pixels' too, DN^2 px.</summary>
    /// <param name="frequency">rad/px.</param>
    public double PowerAt(double frequency) => Height * Dot.At(frequency);

    /// <summary>Power in the plane of the waves that are longest along both axes, DN^2 px^2: the geometric mean of what both lines tell of it.</summary>
    public static double LongestPower(SampledPattern alongX, SampledPattern alongY) => Math.Sqrt(alongX.Height * alongX.Dot.PlanePower * alongY.Height * alongY.Dot.PlanePower);

    /// <summary>The fit to a picture's spectra along both axes: the same discs as far apart, blurs and levels of their own; null where they show no pattern.</summary>
    public static (SampledPattern X, SampledPattern Y)? Fit(AxisPower alongX, AxisPower alongY)
    {
        // Among discs the coarse steps of blur decide, between the best of them and Gaussians fine ones: the power at the limit of the pixels differs from one coarse step to the next by as much as little noise.
        Candidate? gaussian = Candidate.Of(alongX, alongY, Families[0])?.Closer(alongX, alongY);
        Candidate? disc = Families.Skip(1).Select(family => Candidate.Of(alongX, alongY, family)).MinBy(candidate => candidate?.Misfit ?? double.PositiveInfinity)?.Closer(alongX, alongY);
        Candidate? best = gaussian is null || (disc is not null && disc.Misfit < gaussian.Misfit - LeastGain) ? disc : gaussian;
        return best is null ? null : (best.X, best.Y);
    }

    private static (SampledPattern? Pattern, double Misfit) FitBlur(ReadOnlySpan<double> power, (DotPower Dot, double[] Folded)[] family)
    {
        SampledPattern? best = null;
        double least = double.PositiveInfinity;
        foreach ((DotPower dot, double[] folded) in family)
        {
            (double height, double noise, double misfit) = FitLevels(power, folded);
            if (misfit < least)
                (best, least) = (new SampledPattern(height, dot, noise), misfit);
        }

        return (best, least);
    }

    private static double[] Frequencies() => [.. Enumerable.Range(0, (AxisPower.Length / 2) + 1).Select(AxisPower.Frequency)];

    // Height and n for a shape: weighted least squares, the weights those of the model found before.
    private static (double Height, double Noise, double Misfit) FitLevels(ReadOnlySpan<double> power, ReadOnlySpan<double> shape)
    {
        Span<double> model = stackalloc double[power.Length];
        power.CopyTo(model);
        double height = 0, noise = 0;
        for (int round = 0; round < Rounds; round++)
        {
            (height, noise) = Solve(power, shape, model);
            if (!(height > 0))
                return (0, 0, double.PositiveInfinity);
            for (int k = FirstFitted; k < power.Length; k++)
                model[k] = (height * shape[k]) + noise;
        }

        double misfit = 0;
        for (int k = FirstFitted; k < power.Length; k++)
            misfit += Math.Log(model[k]) + (power[k] / model[k]);
        return (height, noise, misfit);
    }

    // Noise is not negative.
    private static (double Height, double Noise) Solve(ReadOnlySpan<double> power, ReadOnlySpan<double> shape, ReadOnlySpan<double> model)
    {
        double ss = 0, s1 = 0, one = 0, sp = 0, p1 = 0;
        for (int k = FirstFitted; k < power.Length; k++)
        {
            double weight = 1 / (model[k] * model[k]);
            ss += weight * shape[k] * shape[k];
            s1 += weight * shape[k];
            one += weight;
            sp += weight * shape[k] * power[k];
            p1 += weight * power[k];
        }

        double determinant = (ss * one) - (s1 * s1);
        double height = ((sp * one) - (p1 * s1)) / determinant, noise = ((ss * p1) - (s1 * sp)) / determinant;
        return noise >= 0 ? (height, noise) : (sp / ss, 0);
    }

    /// <summary>The best of a family along both axes.</summary>
    private sealed record Candidate(SampledPattern X, SampledPattern Y, double Misfit)
    {
        public static Candidate? Of(AxisPower alongX, AxisPower alongY, (DotPower Dot, double[] Folded)[] family) => Of(alongX, alongY, family, family);

        /// <summary>With blurs between the steps of the family.</summary>
        public Candidate Closer(AxisPower alongX, AxisPower alongY) => Of(alongX, alongY, Closely(X.Dot), Closely(Y.Dot)) ?? this;

        private static Candidate? Of(AxisPower alongX, AxisPower alongY, (DotPower Dot, double[] Folded)[] familyX, (DotPower Dot, double[] Folded)[] familyY)
        {
            (SampledPattern? x, double misfitX) = FitBlur(alongX.Power, familyX);
            (SampledPattern? y, double misfitY) = FitBlur(alongY.Power, familyY);
            return x is null || y is null ? null : new Candidate(x, y, IndependentShare * ((alongX.Stretches * misfitX) + (alongY.Stretches * misfitY)));
        }

        private static (DotPower Dot, double[] Folded)[] Closely(DotPower dot)
        {
            DotFamily family = dot.About();
            return [.. family.Dots.Zip(family.Folded(Frequencies()))];
        }
    }
}
