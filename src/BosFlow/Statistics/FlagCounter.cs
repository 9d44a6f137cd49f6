using BosFlow.Displacement;

namespace BosFlow.Statistics;

/// <summary>In how many frames each flag was set at each node.</summary>
internal sealed class FlagCounter
{
    private const int Bits = 8;
    private readonly int[] counts;
    private int frames;

    public FlagCounter(int nodes) => counts = new int[checked(nodes * Bits)];

    public void Add(ReadOnlySpan<VectorFlags> flags)
    {
        frames++;
        for (int node = 0; node < flags.Length; node++)
        {
            int set = (int)flags[node];
            for (int bit = 0; set != 0; bit++, set >>= 1)
                counts[(node * Bits) + bit] += set & 1;
        }
    }

    /// <summary>The flags that were set in more than half of the frames.</summary>
    public VectorFlags Prevailing(int node)
    {
        int prevailing = 0;
        for (int bit = 0; bit < Bits; bit++)
        {
            if (2L * counts[(node * Bits) + bit] > frames)
                prevailing |= 1 << bit;
        }

        return (VectorFlags)prevailing;
    }
}
