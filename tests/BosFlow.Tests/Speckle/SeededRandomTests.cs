using BosFlow.Speckle;

namespace BosFlow.Tests.Speckle;

public sealed class SeededRandomTests
{
    [Fact]
    public void NextBits_Seed1234567_IsThePublishedSequence()
    {
        // First outputs for seed 1234567 as given on the algorithm's Rosetta Code page, from memory.
        var random = new SeededRandom(1234567);
        Assert.Equal(6457827717110365317UL, random.NextBits());
        Assert.Equal(3203168211198807973UL, random.NextBits());
        Assert.Equal(9817491932198370423UL, random.NextBits());
    }

    [Fact]
    public void NextNormal_ManyDraws_HasTheMomentsOfANormal()
    {
        var random = new SeededRandom(5);
        const int Count = 200_000;
        double sum = 0, square = 0, fourth = 0;
        for (int i = 0; i < Count; i++)
        {
            double value = random.NextNormal();
            sum += value;
            square += value * value;
            fourth += value * value * value * value;
        }

        // Standard errors: 1 / sqrt(N) = 0.0022, sqrt(2 / N) = 0.0032, sqrt(96 / N) = 0.022; four of each.
        Assert.Equal(0, sum / Count, 0.009);
        Assert.Equal(1, square / Count, 0.013);
        Assert.Equal(3, fourth / Count, 0.09);
    }

    [Fact]
    public void PartSeed_DifferentParts_AreDifferent()
    {
        var seeds = new HashSet<ulong>();
        for (int frame = -1; frame < 40; frame++)
        {
            for (int row = 0; row < 40; row++)
                Assert.True(seeds.Add(SeededRandom.PartSeed(1, frame, row)));
        }
    }
}
