using BenchmarkDotNet.Attributes;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Benchmarks.Kernels;

/// <summary>Turning a 1280 x 720 picture into B-spline coefficients: paid once a frame.</summary>
public class PrefilterBenchmark
{
    private const int Width = 1280;
    private const int Height = 720;
    private float[] pixels = [];
    private BSplineImage cubic = null!;
    private BSplineImage quintic = null!;

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(7);
        pixels = [.. Enumerable.Range(0, Width * Height).Select(_ => random.NextSingle() * 255)];
        cubic = new BSplineImage(3);
        quintic = new BSplineImage(5);
    }

    [Benchmark(Baseline = true)]
    public void Cubic() => cubic.Load(pixels, Width, Height);

    [Benchmark]
    public void Quintic() => quintic.Load(pixels, Width, Height);
}
