using BosFlow.Numerics.Robust;

namespace BosFlow.Displacement;

/// <summary>What is left of the coarse pass's error when the passes end. Working memory of one frame.</summary>
/// <remarks>
/// With c the error of the coarse pass, a wave of the predictor lacks c, and each pass takes the part A of it off (<see cref="IterationNoise"/>): S^(N-1) (1 - A)^N c remains after N passes. Waves about as long as the window fade slowly, since a window
/// hardly sees them, and with little smoothing nothing else takes them off. The first step after the coarse pass is -A c and its own noise, so that its mean square less the noise tells that of c in every frame, and with the spectrum of c (coarse windows
/// that overlap, carried to the nodes by straight lines) that of what remains (derived). The median of the squares is taken: flows that coarse windows smear are a matter of resolution.
/// </remarks>
internal sealed class CoarseRemainder
{
    private const int MostSamples = 1024;

    private readonly double remaining;
    private readonly float[] steps;
    private readonly float[] noise;

    /// <summary>Prepares what depends on the settings.</summary>
    public CoarseRemainder(DisplacementSettings settings, NodeGrid grid)
    {
        remaining = new NodeWaves(settings).Remaining();
        int samples = Math.Min(MostSamples, grid.Count);
        steps = new float[2 * samples];
        noise = new float[2 * samples];
    }

    /// <summary>Variance of a component, px^2; to be asked after the first pass.</summary>
    /// <param name="state">What the first pass found.</param>
    /// <param name="beforeU">u beyond the motion at the nodes before it, px.</param>
    /// <param name="beforeV">v, px.</param>
    public double Variance(NodeState state, float[] beforeU, float[] beforeV)
    {
        int count = 0;
        for (int i = 0; i < steps.Length / 2; i++)
        {
            int node = (int)(2L * i * state.Grid.Count / steps.Length);
            if (state.Flags[node] != VectorFlags.None)
                continue;
            Add(state.U[node] - beforeU[node], state.SigmaU[node]);
            Add(state.V[node] - beforeV[node], state.SigmaV[node]);
        }

        if (count == 0)
            return 0;
        return remaining * Math.Max(0, (Quantiles.Median(steps.AsSpan(0, count)) / Quantiles.MedianOfNormalSquares) - Quantiles.Median(noise.AsSpan(0, count)));

        void Add(float step, float sigma)
        {
            steps[count] = step * step;
            noise[count++] = sigma * sigma;
        }
    }
}
