using System.Numerics;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;
using BosFlow.Registration;

namespace BosFlow.Displacement;

/// <summary>Working memory of one frame's measurement and the order of its passes; used by one thread at a time.</summary>
internal sealed class FrameMeasurement
{
    private const int Resampled = 3;
    private const int HoldersOfMotion = 3;
    private const int RowsPerPart = 32;

    private readonly DisplacementSettings settings;
    private readonly PreparedFrame prepared;
    private readonly CoarsePass coarse;
    private readonly IRefinementPass refinement;
    private readonly PredictorField predictorField;
    private readonly NodeState state;
    private readonly OutlierTest outliers;
    private readonly StatedSigma sigma;
    private readonly CoarseRemainder remainder;
    private readonly InterpolationCorrection? correction;
    private readonly BiasRemoval? biasRemoval;
    private readonly NodeResampling[] resamplings;
    private readonly float[] steerU;
    private readonly float[] steerV;
    private readonly float[] scratchU;
    private readonly float[] scratchV;

    public FrameMeasurement(ReferenceTexture texture, CoarseReference coarseReference, ReferenceWindows windows, BlockReference? blocks, HalfWindows? half, ShapeSolver? shape, StatedSigma sigma, KnownBias bias, DisplacementSettings settings, FineSpline? underlying)
    {
        this.settings = settings;
        this.sigma = sigma;
        NodeGrid grid = windows.Layout.Grid;
        prepared = new PreparedFrame(settings.Interpolation);
        coarse = new CoarsePass(texture, coarseReference);
        refinement = settings.SubPixel != SubPixelMethod.LeastSquares ? new CorrelationPass(texture, windows)
            : blocks is null ? new LeastSquaresPass(texture, windows)
            : half is null ? new BlockPass(texture, windows, blocks, shape)
            : new AdaptivePass(texture, windows, blocks, half, shape, sigma.SquaredBias);
        predictorField = new PredictorField(grid, texture.Width, texture.Height);
        state = new NodeState(grid);
        outliers = new OutlierTest(grid);
        remainder = new CoarseRemainder(settings, grid);
        correction = underlying is null ? null : new InterpolationCorrection(underlying, grid, settings.Interpolation);
        biasRemoval = bias.IsTakenOff ? new BiasRemoval(bias.Amplitude, grid, settings.WindowPixels) : null;
        resamplings = [.. Enumerable.Range(0, Resampled).Select(_ => new NodeResampling(coarseReference.Layout.Grid, grid))];
        steerU = new float[grid.Count];
        steerV = new float[grid.Count];
        scratchU = new float[grid.Count];
        scratchV = new float[grid.Count];
    }

    /// <summary>Measures a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="motion">Expected motion of the background.</param>
    /// <param name="room">A field whose arrays become the result's; null = new ones are taken.</param>
    /// <param name="threads">Threads.</param>
    /// <param name="cancellationToken">Stops between two parts of the picture.</param>
    public VectorField Measure(GrayImage frame, IPictureMotion motion, VectorField? room, FrameThreads threads, CancellationToken cancellationToken)
    {
        prepared.Load(frame, threads, cancellationToken);
        threads.Run(HoldersOfMotion, holder => SetMotion(holder, motion), cancellationToken);
        coarse.Run(prepared, threads, cancellationToken);
        threads.Run(Resampled, Resample, cancellationToken);
        for (int pass = 1; pass <= settings.Passes; pass++)
        {
            threads.Run(2, SetPredictor, cancellationToken);
            state.Choice = pass < settings.FirstResolvingPass ? WindowChoice.Whole : WindowChoice.Choose;
            state.FitsShape = pass >= settings.FirstResolvingPass;
            state.Sampling = SamplingOf(pass);
            refinement.Run(prepared, predictorField, state, threads, cancellationToken);
            threads.Run((state.Grid.Rows + RowsPerPart - 1) / RowsPerPart, FlagLowCorrelation, cancellationToken);
            if (pass == 1)
                state.CoarseVariance = remainder.Variance(state, steerU, steerV);
            if (pass < settings.Passes)
                Steer(threads, cancellationToken);
        }

        refinement.RateScatter(state, threads, cancellationToken);
        correction?.Apply(refinement, predictorField, state, threads, cancellationToken);
        biasRemoval?.Apply(state, threads, cancellationToken);
        outliers.ForResult(state, settings.OutlierThreshold, settings.OutlierNoisePixels, settings.ReplaceOutliers, threads, cancellationToken);
        prepared.Release();
        return FieldOutput.Build(state, sigma, settings, room ?? FieldOutput.Room(state.Grid, settings), threads, cancellationToken);
    }

    // What moves to first order in a pass between is made good by the last one.
    private Sampling SamplingOf(int pass) => pass == 1 ? Sampling.Everywhere : pass < settings.Passes ? Sampling.WhereMoved : settings.LastPass;

    // Coarse nodes, nodes and the predictor, side by side.
    private void SetMotion(int holder, IPictureMotion motion)
    {
        switch (holder)
        {
            case 0:
                SetMotion(coarse.State, motion);
                break;
            case 1:
                SetMotion(state, motion);
                break;
            default:
                predictorField.SetMotion(motion);
                break;
        }
    }

    private void SetPredictor(int component) => predictorField.Set(component, component == 0 ? steerU : steerV);

    private static void SetMotion(NodeState nodes, IPictureMotion motion)
    {
        for (int row = 0; row < nodes.Grid.Rows; row++)
        {
            for (int column = 0; column < nodes.Grid.Columns; column++)
            {
                (double u, double v) = motion.DisplacementAt(nodes.Grid.X(column), nodes.Grid.Y(row));
                nodes.MotionU[(row * nodes.Grid.Columns) + column] = (float)u;
                nodes.MotionV[(row * nodes.Grid.Columns) + column] = (float)v;
            }
        }
    }

    private void Steer(FrameThreads threads, CancellationToken cancellationToken)
    {
        outliers.ForSteering(state, settings.OutlierThreshold, settings.OutlierNoisePixels, threads, cancellationToken);
        threads.Run(2, component => Steer(component == 0 ? state.U : state.V, component == 0 ? steerU : steerV, component == 0 ? scratchU : scratchV), cancellationToken);
    }

    private void Steer(float[] measured, float[] steer, float[] scratch)
    {
        measured.CopyTo(steer, 0);
        PredictorUpdate.Fill(state.Grid, steer);
        PredictorUpdate.Smooth(state.Grid, steer, scratch, settings.PredictorSmoothings);
        KeepSharp(measured, steer);
    }

    // What half windows resolve is not smeared by smoothing.
    private void KeepSharp(float[] measured, float[] steer)
    {
        if (!state.IsHalf.AsSpan().Contains(true))
            return;
        for (int node = 0; node < steer.Length; node++)
        {
            if (state.IsHalf[node] && !float.IsNaN(measured[node]))
                steer[node] = measured[node];
        }
    }

    // Of the coarse pass the others take u, v and the peak ratio.
    private void Resample(int component)
    {
        (float[] from, float[] to) = component switch
        {
            0 => (coarse.State.U, steerU),
            1 => (coarse.State.V, steerV),
            _ => (coarse.State.PeakRatio, state.PeakRatio),
        };
        resamplings[component].Run(from, to);
    }

    private void FlagLowCorrelation(int part)
    {
        int nodes = RowsPerPart * state.Grid.Columns, first = part * nodes, end = Math.Min(first + nodes, state.Flags.Length), lanes = Vector<float>.Count;
        Vector<float> lowest = new((float)settings.LowestCorrelation);
        for (int node = first; node < end; node++)
        {
            while (node <= end - lanes && Vector.GreaterThanOrEqualAll(new Vector<float>(state.Correlation, node), lowest))
                node += lanes;
            if (node < end && state.Correlation[node] < settings.LowestCorrelation)
                state.Flags[node] |= VectorFlags.LowCorrelation;
        }
    }
}
