using BenchmarkDotNet.Attributes;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Benchmarks.Kernels;

/// <summary>What one pair of windows costs: by the sum that defines the correlation, by one FFT a pair, by FFTs side by side.</summary>
public class CorrelationBenchmark
{
    private const int Lanes = 16;
    private float[] reference = [];
    private float[] moved = [];
    private WindowCorrelator single = null!;
    private WindowCorrelator sideBySide = null!;

    [Params(32, 64)]
    public int Side { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(5);
        reference = [.. Enumerable.Range(0, Side * Side).Select(_ => random.NextSingle() * 255)];
        moved = [.. Enumerable.Range(0, Side * Side).Select(i => reference[(i + 3) % reference.Length])];
        single = new WindowCorrelator(Side);
        sideBySide = new WindowCorrelator(Side, Lanes);
    }

    [Benchmark(Baseline = true)]
    public double Definition()
    {
        double best = double.NegativeInfinity;
        for (int dy = -Side / 2 + 1; dy < Side / 2; dy++)
        {
            for (int dx = -Side / 2 + 1; dx < Side / 2; dx++)
                best = Math.Max(best, CircularSum(dx, dy));
        }

        return best;
    }

    [Benchmark]
    public object OnePair() => single.Correlate(reference, moved);

    [Benchmark(OperationsPerInvoke = Lanes)]
    public void SixteenPairs()
    {
        Span<CorrelationPeak> peaks = stackalloc CorrelationPeak[Lanes];
        for (int lane = 0; lane < Lanes; lane++)
            sideBySide.SetWindows(lane, reference, moved);
        sideBySide.Correlate(peaks, (Side / 2) - 1);
    }

    private double CircularSum(int dx, int dy)
    {
        double sum = 0;
        for (int y = 0; y < Side; y++)
        {
            int row = ((y + dy) & (Side - 1)) * Side;
            for (int x = 0; x < Side; x++)
                sum += (double)reference[(y * Side) + x] * moved[row + ((x + dx) & (Side - 1))];
        }

        return sum;
    }
}
