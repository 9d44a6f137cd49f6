namespace BosFlow.Registration;

/// <summary>Robust fit of a motion model to displacement vectors of which some may follow something else (the flow).</summary>
/// <remarks>
/// Start: least median of squares over seeded samples. Then iteratively reweighted least squares on the geometric distance with
/// Tukey's biweight, w = (1 - (r / (5 s))^2)^2, of the two-component residual r; s, the standard deviation of one component, is
/// 1.4826-fold consistent through median(r^2) = 2 ln 2 s^2 of the vectors within 4 s, repeated until it stands still.
/// For Gaussian errors the fit keeps 94.5 % of the efficiency of least squares (computed by integration over the Rayleigh density).
/// Where more than half of the vectors are disturbed the motion of the disturbance wins: give the flow region in the case then.
/// The same input gives the same bits: the seed is fixed, sums run in the order of the vectors.
/// Source of the weighting: Beaton and Tukey 1974, Technometrics 16:147 (from memory).
/// </remarks>
public static class MotionFit
{
    private const double TuningConstant = 5;
    private const int MostIterations = 50;

    /// <summary>Fits the motion.</summary>
    /// <param name="model">Motion model; None gives the identity and the RMS of the vectors themselves.</param>
    /// <param name="x">Columns of the vectors in the reference, px.</param>
    /// <param name="y">Rows of the vectors in the reference, px.</param>
    /// <param name="u">Displacements to the right, px. A vector with a value that is not finite is left out.</param>
    /// <param name="v">Displacements down, px.</param>
    /// <param name="weights">Relative weights, proportional to the inverse variance; 0 leaves a vector out. Empty = all alike.</param>
    /// <returns>The motion with its residuals; its Failure says why there is none.</returns>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static MotionFitResult Fit(
        MotionModel model, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v, ReadOnlySpan<double> weights)
    {
        if (y.Length != x.Length || u.Length != x.Length || v.Length != x.Length || (!weights.IsEmpty && weights.Length != x.Length))
            throw new ArgumentException("Positions, displacements and weights must have the same number of entries.", nameof(x));
        MotionVectors vectors = MotionVectors.Of(x, y, u, v, weights);
        if (model == MotionModel.None)
            return MotionResidual.OfIdentity(vectors);

        var parameters = new MotionParameters(model);
        if (vectors.Count < parameters.FewestVectors)
        {
            return MotionFitResult.Failed(
                vectors.Count,
                $"Only {vectors.Count} usable vectors for a {Name(model)} motion, which needs at least {parameters.FewestVectors}.");
        }

        double[] p = new double[parameters.Count];
        if (!MotionConsensus.Search(parameters, vectors, p))
        {
            return MotionFitResult.Failed(
                vectors.Count,
                $"The {vectors.Count} vectors lie too close together or on one line and do not determine a {Name(model)} motion.");
        }

        double scale = Refine(parameters, vectors, p);
        return MotionResidual.Of(parameters, vectors, p, scale, TuningConstant, RobustScale.InlierLimit);
    }

    internal static string Name(MotionModel model) => model switch
    {
        MotionModel.None => "fixed",
        MotionModel.Shift => "shift",
        MotionModel.Rigid => "rigid",
        MotionModel.Similarity => "similarity",
        _ => "homography",
    };

    /// <summary>Reweights and solves until the parameters stand still; returns the standard deviation of one component, scaled units.</summary>
    private static double Refine(MotionParameters parameters, MotionVectors vectors, double[] p)
    {
        double[] squares = new double[vectors.Count];
        double[] factors = new double[vectors.Count];
        double[] candidate = new double[p.Length];
        Span<double> h = stackalloc double[9];
        double scale = double.PositiveInfinity;
        for (int iteration = 0; iteration < MostIterations; iteration++)
        {
            parameters.Matrix(p, h);
            vectors.SquaredResiduals(h, squares);
            scale = RobustScale.Of(squares, scale, parameters.Count / 2.0);
            MotionResidual.TukeyFactors(squares, TuningConstant * scale, factors);
            p.CopyTo(candidate, 0);
            if (!MotionLeastSquares.Solve(parameters, vectors, factors, candidate))
                break; // what is left near the motion is degenerate; the consensus stands
            double change = 0;
            for (int i = 0; i < p.Length; i++)
                change = Math.Max(change, Math.Abs(candidate[i] - p[i]));
            candidate.CopyTo(p, 0);
            if (change < 1e-6 * scale)
                break;
        }

        return scale;
    }
}
