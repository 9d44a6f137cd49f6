using BosFlow.Displacement;
using BosFlow.Statistics;
using MathNet.Numerics.Statistics;

namespace BosFlow.Tests.Statistics;

public sealed class FieldStatisticsAccumulatorTests
{
    private static readonly NodeGrid OneNode = new(15.5, 15.5, 16, 1, 1);

    [Fact]
    public void ToStatistics_NistNumAcc1_MatchesCertifiedValues()
    {
        // NIST Statistical Reference Datasets, univariate, NumAcc1: 10000001, 10000003, 10000002;
        // certified mean 10000002, sample standard deviation 1 (values from memory). All are exact in float32.
        FieldStatistics statistics = Accumulate(OneNode, [10000001f, 10000003f, 10000002f], 0.1f);

        Assert.Equal(10000002f, statistics.MeanU[0]);
        Assert.Equal(1f, statistics.RmsU[0]);
    }

    [Fact]
    public void ToStatistics_ManyFrames_MatchesMathNetAtEveryNode()
    {
        var grid = new NodeGrid(10, 20, 8, 7, 5);
        var random = new Random(5);
        var accumulator = new FieldStatisticsAccumulator(grid, CommonError.None);
        var series = new List<double>[grid.Count];
        for (int i = 0; i < series.Length; i++)
            series[i] = [];
        for (int frame = 0; frame < 50; frame++)
        {
            VectorField field = Field(grid, () => (float)(3 + random.NextDouble()), 0.01f);
            for (int i = 0; i < grid.Count; i++)
            {
                if (random.Next(4) == 0)
                    field.Flags[i] = VectorFlags.OutlierReplaced;
                else
                    series[i].Add(field.U[i]);
            }

            accumulator.Add(field);
        }

        FieldStatistics statistics = accumulator.ToStatistics();

        for (int i = 0; i < grid.Count; i++)
        {
            Assert.Equal(series[i].Count, statistics.Count[i]);
            Assert.Equal(series[i].Mean(), statistics.MeanU[i], 1e-6);
            Assert.Equal(series[i].StandardDeviation(), statistics.RmsU[i], 1e-6);
        }
    }

    [Fact]
    public void ToStatistics_SteadyValuesWithLargeSigma_PropagatesTheSigma()
    {
        // By hand: sqrt(4 * 0.2^2) / 4 = 0.1; the values do not scatter at all.
        FieldStatistics statistics = Accumulate(OneNode, [1f, 1f, 1f, 1f], 0.2f);

        Assert.Equal(0.1f, statistics.SigmaMeanU[0], 1e-7f);
    }

    [Fact]
    public void ToStatistics_ScatteredValuesWithSmallSigma_GivesTheStandardError()
    {
        // By hand: sample standard deviation of 1, 3 is sqrt(2), divided by sqrt(2).
        FieldStatistics statistics = Accumulate(OneNode, [1f, 3f], 0.001f);

        Assert.Equal(1f, statistics.SigmaMeanU[0], 1e-6f);
    }

    [Fact]
    public void ToStatistics_OneFrame_HasAMeanAndItsSigmaButNoRms()
    {
        FieldStatistics statistics = Accumulate(OneNode, [2.5f], 0.05f);

        Assert.Equal(2.5f, statistics.MeanU[0]);
        Assert.True(float.IsNaN(statistics.RmsU[0]));
        Assert.Equal(0.05f, statistics.SigmaMeanU[0], 1e-7f);
    }

    [Fact]
    public void ToStatistics_NodeNeverMeasured_IsNaNWithItsPrevailingFlag()
    {
        var accumulator = new FieldStatisticsAccumulator(OneNode, CommonError.None);
        foreach (VectorFlags flag in new[] { VectorFlags.LowTexture, VectorFlags.LowTexture | VectorFlags.LowCorrelation, VectorFlags.Saturated })
        {
            VectorField field = Field(OneNode, () => float.NaN, float.NaN);
            field.Flags[0] = flag;
            accumulator.Add(field);
        }

        FieldStatistics statistics = accumulator.ToStatistics();

        Assert.True(float.IsNaN(statistics.MeanU[0]));
        Assert.True(float.IsNaN(statistics.SigmaMeanV[0]));
        Assert.Equal(0, statistics.Count[0]);
        Assert.Equal(VectorFlags.LowTexture, statistics.PrevailingFlags[0]);
    }

    [Fact]
    public void ToStatistics_ErrorsInCommon_AreNotAveragedAway()
    {
        // 100 alike values of sigma 0.02 px against a reference of 3 frames: a quarter of the variance and the bias stay; a vector holds half of the squared amplitude of the bias.
        var accumulator = new FieldStatisticsAccumulator(OneNode, CommonError.Of(3, 0.006));
        for (int k = 0; k < 100; k++)
            accumulator.Add(Field(OneNode, () => 1, 0.02f));

        double own = 0.0004 - 0.000018;
        double expected = Math.Sqrt((0.75 * own / 100) + (own / 4) + 0.000036);
        Assert.Equal(expected, accumulator.ToStatistics().SigmaMeanU[0], 1e-6);
    }

    [Fact]
    public void ToStatistics_OneFrame_HasTheUncertaintyOfItsVectorsOnACrestOfTheBias()
    {
        // The mean of one value is the value: nothing may be counted twice, neither the reference's noise nor the bias; of that a vector holds half the squared amplitude, the mean the whole.
        var accumulator = new FieldStatisticsAccumulator(OneNode, CommonError.Of(1, 0.006));
        accumulator.Add(Field(OneNode, () => 1, 0.02f));
        Assert.Equal(Math.Sqrt(0.0004 + 0.000018), accumulator.ToStatistics().SigmaMeanU[0], 1e-6);
    }

    [Fact]
    public void Add_FieldOnAnotherGrid_Throws()
    {
        var accumulator = new FieldStatisticsAccumulator(OneNode, CommonError.None);

        Assert.Throws<ArgumentException>(() => accumulator.Add(Field(OneNode with { Spacing = 8 }, () => 0, 0)));
    }

    private static FieldStatistics Accumulate(NodeGrid grid, float[] values, float sigma)
    {
        var accumulator = new FieldStatisticsAccumulator(grid, CommonError.None);
        foreach (float value in values)
            accumulator.Add(Field(grid, () => value, sigma));
        return accumulator.ToStatistics();
    }

    private static VectorField Field(NodeGrid grid, Func<float> value, float sigma)
    {
        float[] Filled(Func<float> fill) => [.. Enumerable.Range(0, grid.Count).Select(_ => fill())];
        return new VectorField
        {
            Grid = grid,
            U = Filled(value),
            V = Filled(value),
            SigmaU = Filled(() => sigma),
            SigmaV = Filled(() => sigma),
            Flags = new VectorFlags[grid.Count],
            Correlation = Filled(() => 0.9f),
            PeakRatio = Filled(() => 5f),
        };
    }
}
