using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>
/// Fits the motion of the background to the measured vectors of the undisturbed region and takes it out of the field,
/// never out of the picture: each frame is interpolated once, by the displacement engine.
/// </summary>
/// <remarks>
/// The noise floor is the plain RMS of what is left on the undisturbed region over the vectors that agree with the motion
/// (within four robust standard deviations: of Gaussian errors 0.03 % are cut, which lowers the RMS by 0.1 %). Vectors that
/// disagree are not noise of the measurement but something else that moves; their share is stated in a warning from
/// <see cref="StatedOutlierShare"/> on, so that a small noise floor never hides that it holds for a part of the region only.
/// Where the case draws the flow, sigmas are compared with what is left outside it, and multiplied by <see cref="BirgeRatio"/>.
/// Windows that the motion carries partly out of the frame take no part: they rest on fewer pixels than all others; nor do, where rows move on their own, those next to them.
/// </remarks>
internal sealed class BackgroundRemover
{
    public const double StatedOutlierShare = 0.05;
    private const double LowestInlierShare = 0.5;
    private const double LargestMotionSigmaPixels = 0.03; // several times the noise of a vector: judgement

    private readonly NodeGrid grid;
    private readonly int[] nodes;
    private readonly MotionModel model;
    private readonly IMotionFitter fitter;
    private readonly RowMotion? referenceRows;
    private readonly PixelMask frame;
    private readonly bool flowIsDrawn;
    private readonly double halfWindow;

    // Where rows move on their own, windows next to rows that the frame has lost are not trusted.
    private readonly double rowMargin;
    private readonly double correlatedVectors;

    /// <summary>Prepares what depends on the grid.</summary>
    /// <param name="grid">Window centres.</param>
    /// <param name="windowPixels">Side of the final window, px.</param>
    /// <param name="undisturbed">Pixels without flow; of the frames' size.</param>
    /// <param name="settings">Motion model and readout.</param>
    /// <param name="flowIsDrawn">Whether the case says where the flow may be, so that the rest is known to be free of it.</param>
    /// <param name="referenceRows">How the rows of the flow-off frames lie against those of the reference in the mean; null = not known.</param>
    public BackgroundRemover(NodeGrid grid, int windowPixels, PixelMask undisturbed, RegistrationSettings settings, bool flowIsDrawn, RowMotion? referenceRows = null)
    {
        this.flowIsDrawn = flowIsDrawn;
        this.referenceRows = referenceRows;
        this.grid = grid;
        model = settings.Motion;
        frame = undisturbed;
        nodes = UndisturbedNodes.Find(grid, windowPixels, undisturbed);
        halfWindow = (windowPixels - 1) / 2.0;
        // Windows that overlap share pixels and so errors: the correlation of their errors is a triangle over the side of the
        // window, whose sum over the nodes is window / spacing in each direction, and so much is the variance of a mean larger.
        double overlap = windowPixels / grid.Spacing;
        correlatedVectors = Math.Max(1, overlap * overlap);
        rowMargin = settings.RowIntervals > 0 ? grid.Spacing : 0;
        fitter = RowModel.Of(undisturbed, settings) is { } rows ? new RowMotionFitter(rows, correlatedVectors, reference: referenceRows) : new PlanarMotionFitter(model);
    }

    /// <summary>Number of vectors whose window lies in the undisturbed region.</summary>
    public int UndisturbedCount => nodes.Length;

    /// <summary>What the undisturbed region cannot tell of the motion, one sentence each.</summary>
    public IReadOnlyList<string> Remarks => fitter.Remarks;

    /// <summary>How well the motion is known in the mean over the frames.</summary>
    /// <param name="records">All frames.</param>
    /// <param name="common">What the errors of all frames have in common.</param>
    public BackgroundMotionErrors ErrorsOfMean(IReadOnlyList<FrameRecord> records, CommonError common)
    {
        FrameRecord[] measured = [.. records.Where(record => record.IsMeasured)];
        double noise = RunMedian.Of(measured.Select(record => Math.Sqrt(((record.NoiseFloorU * record.NoiseFloorU) + (record.NoiseFloorV * record.NoiseFloorV)) / 2)));
        return MotionErrors.Of(model, grid, nodes, correlatedVectors * fitter.Bands, noise, Math.Max(1, measured.Length), common.VarianceShare);
    }

    /// <summary>Takes the motion out.</summary>
    /// <param name="total">What was measured; the motion is taken out of its arrays.</param>
    /// <param name="predictor">Motion to take out where no fit is possible.</param>
    public BackgroundRemoval Remove(VectorField total, IPictureMotion predictor)
    {
        if (model == MotionModel.None)
            return LeftAsItIs(total);
        int[] trusted = Trusted(total, predictor);
        MotionFitResult fit = Fit(total, predictor, trusted);
        if (fit.Failure is not null)
        {
            string warning = nodes.Length == 0
                ? "No vector lies in the undisturbed region: the coarse estimate of the motion was taken out and the noise floor is unknown."
                : $"The motion could not be fitted to the undisturbed region ({fit.Failure}) The coarse estimate was taken out and the noise floor is unknown.";
            Subtract(total, predictor);
            return new BackgroundRemoval(total, predictor, double.NaN, double.NaN, [warning]);
        }

        Subtract(total, fit.Motion);
        if (fit.Motion is RowMotion moved)
            RowShift.TakeOut(total, moved, referenceRows);
        (double factorU, double factorV) = WidenSigma(total, trusted);
        if (fit.Uncertainty is { } uncertainty)
            AddUncertainty(total, uncertainty);
        List<string> warnings = Warnings(fit);
        if (fit.Motion is RowMotion rows && fit.Uncertainty is { } ofRows)
        {
            RowLosses.TakeOut(total, ofRows, LargestMotionSigmaPixels / Math.Sqrt(correlatedVectors), (x, y) => !KeepsItsRows(y + rows.DisplacementAt(x, y).V), warnings);
        }

        return new BackgroundRemoval(total, fit.Motion, fit.ResidualRmsU, fit.ResidualRmsV, warnings) { SigmaFactorU = factorU, SigmaFactorV = factorV };
    }

    // Nothing is fitted, so nothing tells flow from shake: only a region that the case calls free of flow has a noise floor.
    private BackgroundRemoval LeftAsItIs(VectorField total)
    {
        int[] trusted = Trusted(total, PlanarMotion.Identity);
        MotionFitResult rest = Fit(total, PlanarMotion.Identity, trusted);
        bool known = flowIsDrawn && rest.VectorCount > 0;
        (double factorU, double factorV) = WidenSigma(total, trusted);
        return new BackgroundRemoval(
            total, PlanarMotion.Identity, known ? rest.ResidualRmsU : double.NaN, known ? rest.ResidualRmsV : double.NaN, []) { SigmaFactorU = factorU, SigmaFactorV = factorV };
    }

    private List<string> Warnings(MotionFitResult fit)
    {
        var warnings = new List<string>();
        string region = flowIsDrawn ? "widen the flow region" : "draw the flow region into the case";
        if (fit.OutlierShare > 1 - LowestInlierShare)
        {
            warnings.Add(FormattableString.Invariant(
                $"{fit.OutlierShare:P0} of the vectors in the undisturbed region do not follow the motion that was taken out: it may be the wrong one; {region} or choose another motion model."));
        }
        else if (fit.OutlierShare > StatedOutlierShare)
        {
            warnings.Add(FormattableString.Invariant(
                $"{fit.OutlierShare:P0} of the vectors in the undisturbed region do not follow the motion that was taken out, and the noise floor holds for the others; {region} if the flow is among them."));
        }

        return warnings;
    }

    private MotionFitResult Fit(VectorField total, IPictureMotion predictor, int[] trusted)
    {
        double[] x = [.. trusted.Select(node => grid.X(node % grid.Columns))], y = [.. trusted.Select(node => grid.Y(node / grid.Columns))];
        double[] u = [.. trusted.Select(node => (double)total.U[node])], v = [.. trusted.Select(node => (double)total.V[node])];
        return fitter.Fit(predictor, x, y, u, v);
    }

    // Measured vectors of the undisturbed region whose windows stay within the frame.
    private int[] Trusted(VectorField total, IPictureMotion predictor) =>
        [.. nodes.Where(node => total.Flags[node] == VectorFlags.None && StaysInFrame(grid.X(node % grid.Columns), grid.Y(node / grid.Columns), predictor))];

    // Only a region that the case calls free of flow tells errors from flow.
    private (double U, double V) WidenSigma(VectorField rest, int[] trusted) =>
        flowIsDrawn ? (Widen(rest.U, rest.SigmaU, trusted), Widen(rest.V, rest.SigmaV, trusted)) : (1, 1);

    private double Widen(float[] values, float[] sigma, int[] trusted)
    {
        double[] squares = [.. trusted.Select(node => (double)values[node] / sigma[node]).Where(double.IsFinite).Select(ratio => ratio * ratio)];
        double factor = BirgeRatio.Factor(squares, correlatedVectors);
        if (factor > 1)
        {
            for (int node = 0; node < sigma.Length; node++)
                sigma[node] = (float)(factor * sigma[node]);
        }

        return factor;
    }

    private bool StaysInFrame(double x, double y, IPictureMotion motion)
    {
        (double u, double v) = motion.DisplacementAt(x, y);
        return x + u >= halfWindow && x + u <= frame.Width - 1 - halfWindow && KeepsItsRows(y + v);
    }

    private bool KeepsItsRows(double row) => row >= halfWindow + rowMargin && row <= frame.Height - 1 - halfWindow - rowMargin;

    private void Subtract(VectorField field, IPictureMotion motion)
    {
        for (int node = 0; node < grid.Count; node++)
        {
            double x = grid.X(node % grid.Columns);
            double y = grid.Y(node / grid.Columns);
            (double motionU, double motionV) = motion.DisplacementAt(x, y);
            field.U[node] = (float)(field.U[node] - motionU);
            field.V[node] = (float)(field.V[node] - motionV);
        }
    }

    private void AddUncertainty(VectorField field, IMotionUncertainty uncertainty)
    {
        for (int node = 0; node < grid.Count; node++)
        {
            (double motionSigmaU, double motionSigmaV) = uncertainty.At(grid.X(node % grid.Columns), grid.Y(node / grid.Columns));
            field.SigmaU[node] = Combined(field.SigmaU[node], motionSigmaU);
            field.SigmaV[node] = Combined(field.SigmaV[node], motionSigmaV);
        }
    }

    private float Combined(float vector, double motion) =>
        (float)Math.Sqrt(((double)vector * vector) + (correlatedVectors * motion * motion));
}
