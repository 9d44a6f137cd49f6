using BenchmarkDotNet.Attributes;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Benchmarks.Kernels;

/// <summary>How much the vector form of image deformation gains over its definition, for one row of a 1280 px wide picture.</summary>
public class DeformationBenchmark
{
    private const int Width = 1280;
    private const int Height = 64;
    private readonly float[] u = new float[Width];
    private readonly float[] v = new float[Width];
    private readonly float[] target = new float[Width];
    private readonly float[] inside = new float[Width];
    private BSplineImage image = null!;

    [Params(3, 5)]
    public int Order { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(3);
        float[] pixels = [.. Enumerable.Range(0, Width * Height).Select(_ => random.NextSingle() * 255)];
        image = new BSplineImage(pixels, Width, Height, Order);
        for (int x = 0; x < Width; x++)
        {
            u[x] = 1.37f + (0.01f * x);
            v[x] = -0.61f + (0.004f * x);
        }
    }

    [Benchmark(Baseline = true)]
    public void Definition() => BSplineWarp.RowReference(image, 0, Height / 2, u, v, target, inside);

    [Benchmark]
    public void Vectors() => BSplineWarp.Row(image, Height / 2, u, v, target, inside);
}
