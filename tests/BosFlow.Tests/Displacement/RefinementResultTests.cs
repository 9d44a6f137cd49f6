using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

public sealed class RefinementResultTests
{
    private static readonly NodeGrid Grid = new(15.5, 15.5, 16, 20, 3);

    [Fact]
    public void TryStore_PlainWindows_StoresWhatStoreDoes()
    {
        MatchedRow matches = Matches();
        NodeState together = new(Grid), apart = new(Grid);
        PredictorField predictor = Predictor();

        Assert.True(RefinementResult.TryStore(together, 20, RefinementResult.SideBySide, predictor, new VectorFlags[Grid.Count], matches, 0));
        for (int k = 0; k < RefinementResult.SideBySide; k++)
            RefinementResult.Store(apart, 20 + k, predictor, VectorFlags.None, matches.At(k));

        Assert.Equal(apart.U, together.U);
        Assert.Equal(apart.V, together.V);
        Assert.Equal(apart.SigmaU, together.SigmaU);
        Assert.Equal(apart.SigmaV, together.SigmaV);
        Assert.Equal(apart.Correlation, together.Correlation);
        Assert.Equal(apart.Flags, together.Flags);
    }

    [Theory]
    [InlineData(float.NaN)]
    [InlineData(0.7f)]
    [InlineData(-3f)]
    public void TryStore_OneWindowIsNotPlain_StoresNothing(float du)
    {
        MatchedRow matches = Matches();
        matches.Du[RefinementResult.SideBySide - 1] = du;
        var state = new NodeState(Grid);

        Assert.False(RefinementResult.TryStore(state, 0, RefinementResult.SideBySide, Predictor(), new VectorFlags[Grid.Count], matches, 0));

        Assert.All(state.U, value => Assert.Equal(0, value));
    }

    [Fact]
    public void TryStore_ReferenceFlagsAWindow_StoresNothing()
    {
        var reference = new VectorFlags[Grid.Count];
        reference[2] = VectorFlags.LowTexture;

        Assert.False(RefinementResult.TryStore(new NodeState(Grid), 0, RefinementResult.SideBySide, Predictor(), reference, Matches(), 0) && RefinementResult.SideBySide > 2);
    }

    private static MatchedRow Matches()
    {
        var matches = new MatchedRow(Grid.Columns);
        for (int k = 0; k < Grid.Columns; k++)
            matches.Set(k, new MatchedWindow(0.02 * k, 0.3 - (0.01 * k), 0.01, 0.02, 0.9, 1, 0));
        return matches;
    }

    private static PredictorField Predictor()
    {
        var predictor = new PredictorField(Grid, 352, 80);
        predictor.Set([.. Enumerable.Range(0, Grid.Count).Select(i => 0.1f * i)], [.. Enumerable.Range(0, Grid.Count).Select(i => 1 - (0.03f * i))]);
        return predictor;
    }
}
