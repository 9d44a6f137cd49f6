using System.Diagnostics;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Benchmarks.Peers;

/// <summary>BosFlow's engine from bytes to vectors, one frame after the other, each divided among the threads.</summary>
internal sealed class EnginePeer(string name, GrayImage reference, DisplacementSettings settings) : IPeer
{
    // As many as it takes until the compiler has nothing left to improve.
    private const int WarmingFrames = 30;

    // A shorter timing says more about what else the machine does.
    private const double LeastSeconds = 1;

    private readonly DisplacementEngine engine = new(reference, PixelMask.All(reference.Width, reference.Height), settings);
    private byte[][]? bytes;
    private bool isWarm;

    public string Name => name;

    public string Library => "BosFlow";

    public bool UsesThreads => true;

    public NodeGrid Grid => engine.Grid;

    public (double Seconds, NodeResult[] Frames) Measure(NodeTask task, int threads)
    {
        bytes ??= [.. task.Scene.Frames.Select(EightBitPictures.Bytes)];
        for (int i = 0; i < (isWarm ? 1 : WarmingFrames); i++)
            MeasureOne(bytes[0], threads);
        isWarm = true;
        var fields = new VectorField[bytes.Length];
        int repeats = 0;
        double seconds;
        long start = Stopwatch.GetTimestamp();
        do
        {
            for (int i = 0; i < fields.Length; i++)
            {
                if (fields[i] is { } spent)
                    engine.Reuse(spent);
                fields[i] = MeasureOne(bytes[i], threads);
            }

            repeats++;
            seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        }
        while (seconds < LeastSeconds);
        seconds /= repeats;
        return (seconds, [.. fields.Select(field => new NodeResult([.. task.Nodes.Select(node => field.U[node])], [.. task.Nodes.Select(node => field.V[node])]))]);
    }

    /// <summary>Measures one frame again and again, and gives every result back.</summary>
    public void Repeat(byte[] frame, int times)
    {
        for (int i = 0; i < times; i++)
            engine.Reuse(MeasureOne(frame, 1));
    }

    /// <summary>Measures one frame.</summary>
    public VectorField MeasureOne(byte[] frame, int threads) =>
        engine.Measure(new GrayImage(reference.Width, reference.Height, frame, reference.WhiteLevel), PlanarMotion.Identity, threads, CancellationToken.None);
}
