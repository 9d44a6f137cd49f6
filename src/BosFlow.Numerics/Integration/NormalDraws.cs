using BosFlow.Numerics.RandomNumbers;

namespace BosFlow.Numerics.Integration;

/// <summary>Normal random numbers whose sequence is fixed by a seed and a stream number. One instance belongs to one thread.</summary>
internal sealed class NormalDraws(ulong seed, ulong stream)
{
    private readonly SplitMix sequence = new(SplitMix.Mix(SplitMix.Mix(unchecked(seed + SplitMix.Increment)) ^ stream));

    /// <summary>Fills a span with independent numbers of mean 0 and standard deviation 1.</summary>
    public void Fill(Span<double> target)
    {
        for (int i = 0; i < target.Length; i += 2)
        {
            (target[i], double second) = sequence.NextNormals();
            if (i + 1 < target.Length)
                target[i + 1] = second;
        }
    }
}
