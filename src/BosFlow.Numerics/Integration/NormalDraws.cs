namespace BosFlow.Numerics.Integration;

/// <summary>Normal random numbers whose sequence is fixed by a seed and a stream number on every machine.</summary>
/// <remarks>
/// Bits: the split-mix sequence, G. L. Steele, D. Lea, C. H. Flood 2014, doi 10.1145/2660193.2660195. Normal numbers:
/// G. E. P. Box and M. E. Muller 1958, doi 10.1214/aoms/1177706645. One instance belongs to one thread.
/// </remarks>
internal sealed class NormalDraws(ulong seed, ulong stream)
{
    private const ulong Increment = 0x9E3779B97F4A7C15UL;
    private ulong state = Mix(Mix(unchecked(seed + Increment)) ^ stream);

    /// <summary>Fills a span with independent numbers of mean 0 and standard deviation 1.</summary>
    public void Fill(Span<double> target)
    {
        for (int i = 0; i < target.Length; i += 2)
        {
            double radius = Math.Sqrt(-2 * Math.Log(1 - Uniform()));
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * Uniform());
            target[i] = radius * cosine;
            if (i + 1 < target.Length)
                target[i + 1] = radius * sine;
        }
    }

    private double Uniform()
    {
        state = unchecked(state + Increment);
        return (Mix(state) >> 11) * (1.0 / (1UL << 53));
    }

    private static ulong Mix(ulong z)
    {
        unchecked
        {
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return z ^ (z >> 31);
        }
    }
}
