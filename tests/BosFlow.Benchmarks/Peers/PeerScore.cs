using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Peers;

/// <summary>Error and time of one method on one scene.</summary>
/// <param name="Peer">The method.</param>
/// <param name="WorstBias">Largest magnitude of the mean error of u or v over the frames, px.</param>
/// <param name="Rms">RMS error of u and v over all frames, px.</param>
/// <param name="P99">Magnitude of the error that 99 % of the components stay below, px.</param>
/// <param name="Missing">Share of the nodes without a value, 0 to 1.</param>
/// <param name="OneThreadSeconds">Median time for one frame with one thread, s.</param>
/// <param name="AllThreadsSeconds">Median time for one frame with all threads, s; NaN where the method uses one only.</param>
internal sealed record PeerScore(IPeer Peer, double WorstBias, double Rms, double P99, double Missing, double OneThreadSeconds, double AllThreadsSeconds)
{
    public static PeerScore Of(IPeer peer, NodeTask task, NodeResult[] results, double oneThreadSeconds, double allThreadsSeconds)
    {
        double worstBias = 0;
        var measured = new List<float>();
        var truth = new List<double>();
        for (int frame = 0; frame < results.Length; frame++)
        {
            worstBias = Math.Max(worstBias, Math.Abs(ErrorStatistics.Of(results[frame].U, task.TruthU[frame]).Bias));
            worstBias = Math.Max(worstBias, Math.Abs(ErrorStatistics.Of(results[frame].V, task.TruthV[frame]).Bias));
            measured.AddRange(results[frame].U);
            measured.AddRange(results[frame].V);
            truth.AddRange(task.TruthU[frame]);
            truth.AddRange(task.TruthV[frame]);
        }

        ErrorStatistics all = ErrorStatistics.Of(measured.ToArray(), truth.ToArray());
        return new PeerScore(
            peer, worstBias, all.Rms, all.Percentile(99), all.Missing / (double)measured.Count,
            oneThreadSeconds / results.Length, allThreadsSeconds / results.Length);
    }
}
