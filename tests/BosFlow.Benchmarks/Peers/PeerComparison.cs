using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;

namespace BosFlow.Benchmarks.Peers;

/// <summary>All methods on one scene, timed in turns: every round times each method once, so that a busy machine slows all of them.</summary>
internal static class PeerComparison
{
    public static IReadOnlyList<PeerScore> Run(BenchmarkScene scene, int rounds)
    {
        var standard = new BosFlowPeer("windowed, standard", scene.Reference, EngineSettings.Standard);
        var fast = new BosFlowPeer("windowed, fast", scene.Reference, EngineSettings.Fast);
        var task = new NodeTask(scene, standard.Grid, standard.Settings.WindowPixels);
        using var openCv = new DebianOpenCv(task);
        IPeer[] peers = [standard, fast, .. DebianOpenCvPeer.All(openCv), new OpenCvSharpFarneback(), new OpenCvSharpPhaseCorrelation()];
        return Run(task, peers, rounds);
    }

    /// <summary>Times some methods on one task.</summary>
    public static IReadOnlyList<PeerScore> Run(NodeTask task, IPeer[] peers, int rounds)
    {
        int threads = Environment.ProcessorCount;
        var results = new NodeResult[peers.Length][];
        double[][] single = [.. peers.Select(_ => new double[rounds])];
        double[][] all = [.. peers.Select(_ => new double[rounds])];

        // Round -1 warms up caches and the compiler and is not counted.
        for (int round = -1; round < rounds; round++)
        {
            for (int i = 0; i < peers.Length; i++)
            {
                (double seconds, results[i]) = peers[i].Measure(task, 1);
                double allSeconds = peers[i].UsesThreads ? peers[i].Measure(task, threads).Seconds : double.NaN;
                if (round < 0)
                    continue;
                single[i][round] = seconds;
                all[i][round] = allSeconds;
            }
        }

        return [.. peers.Select((peer, i) => PeerScore.Of(peer, task, results[i], Median.Of(single[i]), Median.Of(all[i])))];
    }
}
