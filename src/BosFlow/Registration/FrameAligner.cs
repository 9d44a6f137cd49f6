using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>Brings frames of the undisturbed background onto the pixel grid of the first one, each interpolated once.</summary>
internal sealed class FrameAligner
{
    private const int SplineOrder = 5;
    private const double LargestUncertaintyPixels = 0.05;

    private readonly GrayImage first;
    private readonly RegistrationSettings settings;
    private readonly IMotionEstimator estimator;
    private readonly TileRefiner refiner;
    private readonly ParallelOptions parallel;
    private readonly BSplineImage surface = new(SplineOrder);

    public FrameAligner(GrayImage first, PixelMask undisturbed, RegistrationSettings settings, int threads, CancellationToken cancellationToken)
    {
        this.first = first;
        this.settings = settings;
        estimator = MotionEstimators.Of(first, undisturbed, settings);
        refiner = new TileRefiner(first, undisturbed, settings.Motion, RowModel.Of(undisturbed, settings), settings.Lens);
        parallel = new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancellationToken };
    }

    /// <summary>Aligns one frame.</summary>
    /// <param name="frame">The frame, of the size and in the grey levels of the first.</param>
    /// <param name="failure">Why it could not be aligned to better than 0.05 px; null where it could.</param>
    /// <returns>The frame on the first one's grid, NaN where it does not reach or its rows cannot be placed to 0.05 px; null on failure.</returns>
    public AlignedFrame? Align(GrayImage frame, out string? failure)
    {
        failure = estimator.Unusable;
        if (settings.Motion == MotionModel.None)
            return AlignedFrame.AsItIs(frame);
        if (failure is not null)
            return null;
        MotionEstimate estimate = estimator.Estimate(frame, parallel.CancellationToken);
        failure = estimate.Failure;
        if (failure is not null)
            return null;

        FilledPicture filled = FilledPicture.Of(frame);
        surface.Load(filled.Pixels, frame.Width, frame.Height);
        MotionFitResult fit = refiner.Refine(surface, estimate.Motion);
        failure = fit.Failure;
        if (failure is not null)
            return null;
        bool[] isKnown = KnownRows(fit);
        if (isKnown.Count(known => known) >= LeastKnownShare(fit) * first.Height)
            return new AlignedFrame(frame, fit.Motion, isKnown, Resample(filled, fit.Motion, isKnown));
        failure = FormattableString.Invariant($"It cannot be aligned to better than {LargestUncertaintyPixels} px everywhere.");
        return null;
    }

    // A motion of the whole frame is known everywhere or nowhere well enough; one by rows may lack the rows that the frame has lost at an edge.
    private static double LeastKnownShare(MotionFitResult fit) => LensedMotion.ToIdeal(fit.Motion) is RowMotion ? 0.5 : 1;

    private bool[] KnownRows(MotionFitResult fit)
    {
        bool[] known = new bool[first.Height];
        if (fit.Uncertainty is not { } uncertainty)
            return known;
        if (LensedMotion.ToIdeal(fit.Motion) is not RowMotion)
        {
            Array.Fill(known, uncertainty.Largest(first.Width, first.Height) <= LargestUncertaintyPixels);
            return known;
        }

        double[] columns = [0, (first.Width - 1) / 2.0, first.Width - 1];
        for (int y = 0; y < known.Length; y++)
            known[y] = Array.TrueForAll(columns, x => uncertainty.At(x, y).SigmaU <= LargestUncertaintyPixels);
        return known;
    }

    private float[] Resample(FilledPicture filled, IPictureMotion motion, bool[] isKnown)
    {
        int width = first.Width;
        float[] aligned = new float[width * first.Height];
        Parallel.For(0, first.Height, parallel, y =>
        {
            if (!isKnown[y])
            {
                aligned.AsSpan(y * width, width).Fill(float.NaN);
                return;
            }

            float[] u = new float[width];
            float[] v = new float[width];
            float[] inside = new float[width];
            double[] du = new double[width];
            double[] dv = new double[width];
            MotionAlongRow.Fill(motion, 0, y, du, dv);
            for (int x = 0; x < width; x++)
                (u[x], v[x]) = ((float)du[x], (float)dv[x]);

            Span<float> row = aligned.AsSpan(y * width, width);
            BSplineWarp.Row(surface, y, u, v, row, inside);
            for (int x = 0; x < width; x++)
            {
                if (inside[x] == 0 || !filled.IsRecorded(x + u[x], y + v[x]))
                    row[x] = float.NaN;
            }
        });
        return aligned;
    }
}
