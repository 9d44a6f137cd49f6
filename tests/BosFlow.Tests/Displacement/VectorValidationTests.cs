using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

// Worked behaviour of the normalised-median test: Westerweel and Scarano 2005, Exp. Fluids 39:1096,
// doi 10.1007/s00348-005-0016-6 (definition, threshold 2 and noise level 0.1 px from memory).
public sealed class VectorValidationTests
{
    private static readonly NodeGrid Grid = new(0, 0, 16, 5, 5);

    [Fact]
    public void NormalisedResidual_WorkedByHand_Agrees()
    {
        // Median of 1..8 is 4.5; the distances 3.5 2.5 1.5 0.5 0.5 1.5 2.5 3.5 have the median 2; (10 - 4.5) / (2 + 0.1).
        float[] neighbours = [1, 2, 3, 4, 5, 6, 7, 8];

        Assert.Equal(5.5 / 2.1, VectorValidation.NormalisedResidual(10, neighbours, 0.1), 1e-6);
    }

    [Theory]
    [InlineData(0.19f, false)]
    [InlineData(0.21f, true)]
    public void FindOutliers_InUniformFlow_FlagsBeyondTwiceTheNoiseLevel(float deviation, bool expected)
    {
        float[] u = Constant(0.5f), v = Constant(-0.2f);
        u[12] += deviation;

        Assert.Equal(expected, VectorValidation.FindOutliers(Grid, u, v, All(), 2, 0.1)[12]);
    }

    [Fact]
    public void FindOutliers_InALinearFlow_FlagsNothingButTheOutlier()
    {
        float[] u = new float[25], v = new float[25];
        for (int i = 0; i < 25; i++)
            (u[i], v[i]) = (0.8f * (i % 5), -0.3f * (i / 5));
        u[7] += 6;

        bool[] outliers = VectorValidation.FindOutliers(Grid, u, v, All(), 2, 0.1);

        Assert.Equal([7], Enumerable.Range(0, 25).Where(i => outliers[i]));
    }

    [Fact]
    public void FindOutliers_CrestOfAPlume_IsKeptAndAStrayVectorOnItIsNot()
    {
        float[] u = new float[25], v = Constant(0);
        for (int i = 0; i < 25; i++)
            u[i] = 5 - (0.6f * ((i % 5) - 2) * ((i % 5) - 2));

        Assert.DoesNotContain(true, VectorValidation.FindOutliers(Grid, u, v, All(), 2, 0.1));

        u[12] += 0.5f;
        Assert.True(VectorValidation.FindOutliers(Grid, u, v, All(), 2, 0.1)[12]);
    }

    [Fact]
    public void FindOutliers_ScaledByAFactor_ChangesOnlyWithTheNoiseLevel()
    {
        // The test is made to hold over decades of velocity: scaling vectors and noise level together changes nothing.
        var random = new Random(4);
        float[] u = [.. Enumerable.Range(0, 25).Select(_ => (float)random.NextDouble())], v = [.. Enumerable.Range(0, 25).Select(_ => (float)random.NextDouble())];
        bool[] expected = VectorValidation.FindOutliers(Grid, u, v, All(), 2, 0.1);

        bool[] scaled = VectorValidation.FindOutliers(Grid, [.. u.Select(x => x * 1024)], [.. v.Select(x => x * 1024)], All(), 2, 102.4);

        Assert.Equal(expected, scaled);
    }

    [Fact]
    public void FindOutliers_FewTrustedNeighbours_DecidesNothing()
    {
        float[] u = Constant(0), v = Constant(0);
        u[0] = 100;
        bool[] trusted = new bool[25];
        trusted[0] = trusted[1] = trusted[2] = true;

        Assert.False(VectorValidation.FindOutliers(Grid, u, v, trusted, 2, 0.1)[0]);
    }

    private static float[] Constant(float value) => [.. Enumerable.Repeat(value, 25)];

    private static bool[] All() => [.. Enumerable.Repeat(true, 25)];
}
