namespace BosFlow.Benchmarks.Peers;

/// <summary>One method of Debian's OpenCV.</summary>
internal sealed class DebianOpenCvPeer(DebianOpenCv openCv, string method, string name, bool usesThreads) : IPeer
{
    public string Name => name;

    public string Library => $"OpenCV {openCv.Version} of Debian, from Python";

    public bool UsesThreads => usesThreads;

    public (double Seconds, NodeResult[] Frames) Measure(NodeTask task, int threads) => openCv.Measure(method, threads);

    public static IPeer DisFast(DebianOpenCv openCv) => new DebianOpenCvPeer(openCv, "dis-fast", "dense flow, DIS, fast preset", true);

    public static IReadOnlyList<IPeer> All(DebianOpenCv openCv) =>
    [
        new DebianOpenCvPeer(openCv, "dis", "dense flow, DIS, medium preset", true),
        new DebianOpenCvPeer(openCv, "farneback", "dense flow, Farneback (winsize 32, 3 levels, 3 iterations, poly 5/1.2)", true),
        new DebianOpenCvPeer(openCv, "phase", "phase correlation per window, Hann, given the true whole-pixel shift", false),
    ];
}
