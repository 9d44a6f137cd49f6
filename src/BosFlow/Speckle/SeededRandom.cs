namespace BosFlow.Speckle;

/// <summary>A small random generator whose sequence is fixed by its seed on every machine and every version of the runtime.</summary>
/// <remarks>
/// The split-mix sequence of 64 bits: G. L. Steele, D. Lea, C. H. Flood 2014, "Fast splittable pseudorandom number generators",
/// doi 10.1145/2660193.2660195. Not for cryptography. One instance belongs to one thread.
/// </remarks>
public sealed class SeededRandom
{
    private const ulong Increment = 0x9E3779B97F4A7C15UL;
    private ulong state;
    private double spare = double.NaN;

    /// <summary>Starts the sequence of a seed.</summary>
    /// <param name="seed">Any number.</param>
    public SeededRandom(ulong seed)
    {
        state = seed;
    }

    /// <summary>A seed of its own for one part of a job (a frame, a row), so that parts can be drawn in any order.</summary>
    /// <param name="seed">Seed of the job.</param>
    /// <param name="first">First number of the part, for example the frame.</param>
    /// <param name="second">Second number of the part, for example the row.</param>
    public static ulong PartSeed(ulong seed, long first, long second) =>
        Mix(Mix(Mix(seed + Increment) ^ unchecked((ulong)first)) + Increment ^ unchecked((ulong)second));

    /// <summary>Next 64 random bits.</summary>
    public ulong NextBits()
    {
        state = unchecked(state + Increment);
        return Mix(state);
    }

    /// <summary>Uniform in 0 (included) to 1 (excluded), 53 random bits.</summary>
    public double NextUniform() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Normal, mean 0, standard deviation 1 (G. E. P. Box and M. E. Muller 1958, doi 10.1214/aoms/1177706645).</summary>
    public double NextNormal()
    {
        if (!double.IsNaN(spare))
        {
            double kept = spare;
            spare = double.NaN;
            return kept;
        }

        double radius = Math.Sqrt(-2 * Math.Log(1 - NextUniform()));
        (double sine, double cosine) = Math.SinCos(2 * Math.PI * NextUniform());
        spare = radius * sine;
        return radius * cosine;
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
