using BosFlow.Numerics.RandomNumbers;

namespace BosFlow.Speckle;

/// <summary>A small random generator whose sequence is fixed by its seed on every machine and every version of the runtime.</summary>
/// <remarks>The sequence is that of <see cref="SplitMix"/>; normal numbers are handed out one by one. Not for cryptography. One instance belongs to one thread.</remarks>
public sealed class SeededRandom
{
    private readonly SplitMix sequence;
    private double spare = double.NaN;

    /// <summary>Starts the sequence of a seed.</summary>
    /// <param name="seed">Any number.</param>
    public SeededRandom(ulong seed)
    {
        sequence = new SplitMix(seed);
    }

    /// <summary>A seed of its own for one part of a job (a frame, a row), so that parts can be drawn in any order.</summary>
    /// <param name="seed">Seed of the job.</param>
    /// <param name="first">First number of the part, for example the frame.</param>
    /// <param name="second">Second number of the part, for example the row.</param>
    public static ulong PartSeed(ulong seed, long first, long second) => unchecked(
        SplitMix.Mix((SplitMix.Mix(SplitMix.Mix(seed + SplitMix.Increment) ^ (ulong)first) + SplitMix.Increment) ^ (ulong)second));

    /// <summary>Next 64 random bits.</summary>
    public ulong NextBits() => sequence.NextBits();

    /// <summary>Uniform in 0 (included) to 1 (excluded), 53 random bits.</summary>
    public double NextUniform() => sequence.NextUniform();

    /// <summary>Normal, mean 0, standard deviation 1.</summary>
    public double NextNormal()
    {
        if (!double.IsNaN(spare))
        {
            double kept = spare;
            spare = double.NaN;
            return kept;
        }

        (double next, spare) = sequence.NextNormals();
        return next;
    }
}
