namespace BosFlow.Numerics.RandomNumbers;

/// <summary>The split-mix sequence of 64 bits: random numbers that are fixed by their seed on every machine and every version of the runtime.</summary>
/// <remarks>
/// G. L. Steele, D. Lea, C. H. Flood 2014, "Fast splittable pseudorandom number generators", doi 10.1145/2660193.2660195.
/// Not for cryptography. One instance belongs to one thread.
/// </remarks>
/// <param name="seed">Any number.</param>
public sealed class SplitMix(ulong seed)
{
    /// <summary>What the state grows by from number to number.</summary>
    public const ulong Increment = 0x9E3779B97F4A7C15UL;

    private ulong state = seed;

    /// <summary>Spreads the bits of a number over all 64, each number to another one.</summary>
    /// <param name="z">Any number.</param>
    public static ulong Mix(ulong z)
    {
        unchecked
        {
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
            return z ^ (z >> 31);
        }
    }

    /// <summary>Next 64 random bits.</summary>
    public ulong NextBits()
    {
        state = unchecked(state + Increment);
        return Mix(state);
    }

    /// <summary>Uniform in 0 (included) to 1 (excluded), 53 random bits.</summary>
    public double NextUniform() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Two independent normal numbers, mean 0, standard deviation 1 (G. E. P. Box and M. E. Muller 1958, doi 10.1214/aoms/1177706645).</summary>
    public (double First, double Second) NextNormals()
    {
        double radius = Math.Sqrt(-2 * Math.Log(1 - NextUniform()));
        (double sine, double cosine) = Math.SinCos(2 * Math.PI * NextUniform());
        return (radius * cosine, radius * sine);
    }
}
