using BosFlow.Displacement;

namespace BosFlow.Statistics;

/// <summary>
/// Collects the time statistics of the displacement frame by frame; memory does not grow with the clip.
/// Only vectors that were measured (flag 0) count; a replaced one does not.
/// </summary>
/// <remarks>
/// The result depends on the order of the frames in the last bits only through rounding: add them in the order of the footage
/// and it is the same on every run. Not safe for several threads.
/// </remarks>
public sealed class FieldStatisticsAccumulator
{
    private readonly NodeGrid grid;
    private readonly CommonError common;
    private readonly RunningMoments u;
    private readonly RunningMoments v;
    private readonly RunningMoments varianceU;
    private readonly RunningMoments varianceV;
    private readonly RunningMoments correlation;
    private readonly FlagCounter flags;

    /// <summary>Starts without a frame.</summary>
    /// <param name="grid">The grid that every field has.</param>
    /// <param name="common">Part of the error that all frames share and that no averaging reduces.</param>
    public FieldStatisticsAccumulator(NodeGrid grid, CommonError common)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(common);
        this.grid = grid;
        this.common = common;
        u = new RunningMoments(grid.Count);
        v = new RunningMoments(grid.Count);
        varianceU = new RunningMoments(grid.Count);
        varianceV = new RunningMoments(grid.Count);
        correlation = new RunningMoments(grid.Count);
        flags = new FlagCounter(grid.Count);
    }

    /// <summary>Number of fields added.</summary>
    public int FrameCount { get; private set; }

    /// <summary>Adds one frame's field.</summary>
    /// <param name="field">The field, on the grid of this accumulator.</param>
    /// <exception cref="ArgumentException">The field has another grid.</exception>
    public void Add(VectorField field)
    {
        ArgumentNullException.ThrowIfNull(field);
        if (field.Grid != grid)
            throw new ArgumentException($"The field lies on {field.Grid}, the statistics on {grid}.", nameof(field));
        for (int node = 0; node < grid.Count; node++)
        {
            if (field.Flags[node] != VectorFlags.None)
                continue;
            u.Add(node, field.U[node]);
            v.Add(node, field.V[node]);
            AddVariance(varianceU, node, field.SigmaU[node]);
            AddVariance(varianceV, node, field.SigmaV[node]);
            if (float.IsFinite(field.Correlation[node]))
                correlation.Add(node, field.Correlation[node]);
        }

        flags.Add(field.Flags);
        FrameCount++;
    }

    /// <summary>The statistics of what was added so far.</summary>
    /// <returns>Mean, sample standard deviation, and the standard uncertainty of the mean.</returns>
    /// <remarks>
    /// For N values with standard uncertainties sigma_i and sample standard deviation s: of each variance v_i = sigma_i^2 - bias^2 / 2 the share of the
    /// reference is common to all frames (see <see cref="CommonError"/>), the rest is each frame's own. Both sqrt((1 - share) sum v_i) / N (propagation)
    /// and s / sqrt(N) (repetition) estimate what the frames' own errors leave in the mean; the larger is taken, and what all share is added in
    /// quadrature: share * mean(v_i) + bias^2, bias the amplitude of a wave of the fraction of a pixel: the vectors of a flow may all lie on its crest. Values that follow each other within the time scale of the flow are not independent:
    /// the true uncertainty of the mean of an unsteady flow is then larger by the root of the correlation time in frames.
    /// </remarks>
    public FieldStatistics ToStatistics()
    {
        int count = grid.Count;
        var result = new FieldStatistics
        {
            Grid = grid,
            MeanU = new float[count],
            MeanV = new float[count],
            RmsU = new float[count],
            RmsV = new float[count],
            SigmaMeanU = new float[count],
            SigmaMeanV = new float[count],
            MeanCorrelation = new float[count],
            Count = new int[count],
            PrevailingFlags = new VectorFlags[count],
        };
        for (int node = 0; node < count; node++)
        {
            result.MeanU[node] = (float)u.Mean(node);
            result.MeanV[node] = (float)v.Mean(node);
            result.RmsU[node] = (float)u.Deviation(node);
            result.RmsV[node] = (float)v.Deviation(node);
            result.SigmaMeanU[node] = (float)SigmaOfMean(u, varianceU, node);
            result.SigmaMeanV[node] = (float)SigmaOfMean(v, varianceV, node);
            result.MeanCorrelation[node] = (float)correlation.Mean(node);
            result.Count[node] = u.Count(node);
            result.PrevailingFlags[node] = flags.Prevailing(node);
        }

        return result;
    }

    private static void AddVariance(RunningMoments moments, int node, double sigma)
    {
        if (double.IsFinite(sigma))
            moments.Add(node, sigma * sigma);
    }

    private double SigmaOfMean(RunningMoments values, RunningMoments variances, int node)
    {
        double root = Math.Sqrt(values.Count(node));
        double repeated = values.Deviation(node) / root;
        // The sigma of every vector holds the bias already, as a wave has it over all fractions of a pixel: half of its squared amplitude. The vectors of a mean have fractions of their own, and may all lie on a crest.
        double bias = common.BiasPixels * common.BiasPixels;
        double variance = Math.Max(0, variances.Mean(node) - (bias / 2));
        double propagated = Math.Sqrt((1 - common.VarianceShare) * variance) / root;
        if (double.IsNaN(propagated))
            return repeated;
        double independent = double.IsNaN(repeated) ? propagated : Math.Max(propagated, repeated);
        double shared = (common.VarianceShare * variance) + bias;
        return Math.Sqrt((independent * independent) + shared);
    }
}
