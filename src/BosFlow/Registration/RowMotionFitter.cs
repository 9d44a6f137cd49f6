namespace BosFlow.Registration;

/// <summary>Robust fit of a motion by rows, from a motion that is near already.</summary>
/// <remarks>
/// Iteratively reweighted least squares with Tukey's biweight, as <see cref="MotionFit"/>, but started from the tiles' motion instead of a search of its own: a motion of
/// thirty unknowns has no small samples. The residual's standard deviation is that of Gaussian errors; where windows overlap, one unknown takes up as many vectors as share an error.
/// </remarks>
public sealed class RowMotionFitter : IMotionFitter
{
    private const double TuningConstant = 5;
    private const int MostIterations = 50;
    private const double UnknownScalePixels = 0.1; // only says how weak the smoothing is in the first round

    private readonly RowModel model;
    private readonly double vectorsPerError;
    private readonly double leastScale;
    private readonly RowMotion? reference;

    /// <summary>Prepares a fit.</summary>
    /// <param name="model">What rows may do.</param>
    /// <param name="vectorsPerError">Number of vectors that share one error because their windows overlap, 1 or more.</param>
    /// <param name="leastScale">Standard deviation of one component below which vectors are never said to be, px: keeps those that are worse than the rest for a reason.</param>
    /// <param name="reference">How the rows of the flow-off frames lie against those of the reference in the mean; null = not known.</param>
    public RowMotionFitter(RowModel model, double vectorsPerError, double leastScale = 0, RowMotion? reference = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentOutOfRangeException.ThrowIfLessThan(vectorsPerError, 1);
        this.model = model;
        this.vectorsPerError = vectorsPerError;
        this.leastScale = leastScale;
        this.reference = reference;
    }

    /// <inheritdoc/>
    public int Bands => model.Shifts.Intervals;

    /// <inheritdoc/>
    public IReadOnlyList<string> Remarks => model.HasTurn && !model.TurnsByRow
        ? ["Most rows have undisturbed background on one side of the flow only, so that turning within a frame cannot be told from shifting: each row got a shift of its own, and one rotation and scale hold for the whole frame. Leave background on both sides of the flow."]
        : [];

    /// <inheritdoc/>
    public MotionFitResult Fit(IPictureMotion start, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v)
    {
        ArgumentNullException.ThrowIfNull(start);
        return FitFrom(start, x, y, u, v);
    }

    /// <summary>Fits the motion to vectors most of which are known to follow it already: all count alike in the first round.</summary>
    internal MotionFitResult FitTrusted(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v) => FitFrom(null, x, y, u, v);

    private MotionFitResult FitFrom(IPictureMotion? start, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v)
    {
        RowVectors vectors = RowVectors.Of(x, y, u, v);
        double lost = vectorsPerError * model.Unknowns;
        if (vectors.Count < 2 * lost)
        {
            return MotionFitResult.Failed(vectors.Count, FormattableString.Invariant(
                $"Only {vectors.Count} usable vectors for a motion by rows with {model.Unknowns} unknowns, which needs at least {Math.Ceiling(2 * lost)}."));
        }

        var solver = new RowLeastSquares(model);
        double[] squares = new double[vectors.Count];
        double[] factors = new double[vectors.Count];
        IPictureMotion? motion = start;
        double scale = double.PositiveInfinity;
        for (int iteration = 0; iteration < MostIterations; iteration++)
        {
            double before = scale;
            if (motion is null)
            {
                scale = Math.Max(leastScale, UnknownScalePixels);
                Array.Fill(factors, 1);
            }
            else
            {
                vectors.SquaredResiduals(motion, squares);
                scale = Math.Max(leastScale, RobustScale.Of(squares, before, iteration == 0 ? 0 : lost));
                MotionResidual.TukeyFactors(squares, TuningConstant * scale, factors);
            }

            // The first motion is a straight line in X, as the start is or its solution; only from its turn can be told what bends.
            RowMotion? seen = (motion as RowMotion)?.Against(reference);
            if (!solver.Solve(vectors, factors, scale, seen))
                return MotionFitResult.Failed(vectors.Count, "The vectors lie too close together to determine a motion by rows.");
            motion = new RowMotion(model, solver.U, solver.V, seen is null ? null : reference);
            if (Math.Abs(before - scale) < 1e-6 * scale)
                break;
        }

        return Result(vectors, motion!, scale, solver.Covariance(scale), lost);
    }

    private MotionFitResult Result(RowVectors vectors, IPictureMotion motion, double scale, double[] covariance, double lost)
    {
        double sumU = 0, sumV = 0;
        int inliers = 0;
        double limit = RobustScale.InlierLimit * scale;
        for (int i = 0; i < vectors.Count; i++)
        {
            (double u, double v) = motion.DisplacementAt(vectors.X[i], vectors.Y[i]);
            double ru = vectors.U[i] - u;
            double rv = vectors.V[i] - v;
            if ((ru * ru) + (rv * rv) > limit * limit)
                continue;
            sumU += ru * ru;
            sumV += rv * rv;
            inliers++;
        }

        double freedom = inliers - lost;
        return new MotionFitResult
        {
            Motion = motion,
            ResidualRmsU = freedom > 0 ? Math.Sqrt(sumU / freedom) : double.NaN,
            ResidualRmsV = freedom > 0 ? Math.Sqrt(sumV / freedom) : double.NaN,
            VectorCount = vectors.Count,
            InlierCount = inliers,
            Uncertainty = new RowMotionUncertainty(model, covariance),
        };
    }
}
