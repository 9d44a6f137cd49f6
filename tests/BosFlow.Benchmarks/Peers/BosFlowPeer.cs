using System.Diagnostics;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Benchmarks.Peers;

/// <summary>BosFlow's own engine. Its reference is prepared before the clock starts: that happens once a run.</summary>
internal sealed class BosFlowPeer : IPeer
{
    private readonly DisplacementEngine engine;

    public BosFlowPeer(string name, GrayImage reference, DisplacementSettings settings)
    {
        Name = name;
        long start = Stopwatch.GetTimestamp();
        engine = new DisplacementEngine(reference, PixelMask.All(reference.Width, reference.Height), settings);
        PreparationSeconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        Settings = settings;
    }

    public string Name { get; }

    public string Library => "BosFlow";

    public bool UsesThreads => true;

    public DisplacementSettings Settings { get; }

    public NodeGrid Grid => engine.Grid;

    public double PreparationSeconds { get; }

    public (double Seconds, NodeResult[] Frames) Measure(NodeTask task, int threads)
    {
        IReadOnlyList<GrayImage> frames = task.Scene.Frames;
        var fields = new VectorField[frames.Count];
        long start = Stopwatch.GetTimestamp();
        if (threads == 1)
        {
            for (int i = 0; i < frames.Count; i++)
                fields[i] = engine.Measure(frames[i], PlanarMotion.Identity, CancellationToken.None);
        }
        else
        {
            Parallel.For(0, frames.Count, new ParallelOptions { MaxDegreeOfParallelism = threads }, i =>
                fields[i] = engine.Measure(frames[i], PlanarMotion.Identity, CancellationToken.None));
        }

        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        return (seconds, [.. fields.Select(field => Sample(field, task))]);
    }

    private static NodeResult Sample(VectorField field, NodeTask task) =>
        new([.. task.Nodes.Select(node => field.U[node])], [.. task.Nodes.Select(node => field.V[node])]);
}
