using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Displacement;

public sealed class MovedSumsTests
{
    private const int Width = 157;
    private const int Height = 118;
    private const float TrueU = 1.31f;
    private const float TrueV = -0.67f;
    private static readonly WaveTexture Texture = new(3);
    private static readonly ReferenceTexture Reference = new(Texture.Picture(Width, Height), PixelMask.All(Width, Height));

    [Theory]
    [InlineData(32, 8, 1f)]
    [InlineData(32, 16, 1.3f)]
    [InlineData(24, 4, 1f)]
    public void Run_DisplacementMovedALittle_FindsWhatDeformingAnewFinds(int window, int spacing, float gain)
    {
        WindowLayout layout = WindowLayout.Fill(Width, Height, window, spacing);

        (float[] firstU, NodeState moved, NodeState anew) = Run(layout, Frame(gain, missing: true), (0.06f, -0.05f), (0.01f, 0.02f));

        Assert.Equal(anew.Flags, moved.Flags);
        int compared = 0;
        for (int node = 0; node < layout.Grid.Count; node++)
        {
            if (anew.Flags[node] != VectorFlags.None)
                continue;
            Assert.Equal(anew.U[node], moved.U[node], 2e-3); // of a change of 0.05 to 0.07 px
            Assert.Equal(anew.V[node], moved.V[node], 2e-3);
            Assert.Equal(anew.Correlation[node], moved.Correlation[node], 2e-3);
            compared++;
        }

        Assert.True(compared > layout.Grid.Count / 3);
        Assert.NotEqual(firstU, moved.U);
    }

    [Fact]
    public void Run_DisplacementMovedFar_IsDeformedAnew()
    {
        WindowLayout layout = WindowLayout.Fill(Width, Height, 32, 8);

        (_, NodeState moved, NodeState anew) = Run(layout, Frame(1, missing: true), (0.3f, 0), (0, 0));

        Assert.Equal(anew.U, moved.U);
        Assert.Equal(anew.SigmaV, moved.SigmaV);
        Assert.Equal(anew.Flags, moved.Flags);
    }

    [Fact]
    public void Run_SmallStepsThatAddUp_AreDeformedAnewWhenTheyReachTheLimit()
    {
        WindowLayout layout = WindowLayout.Fill(Width, Height, 32, 8);

        (_, NodeState moved, NodeState anew) = Run(layout, Frame(1, missing: false), (0.27f, 0), (0.18f, 0), (0.09f, 0), (0, 0));

        // The third step of 0.09 px is the first beyond 0.2 px, so that it is as if deformed there.
        Assert.Equal(anew.U, moved.U);
    }

    [Fact]
    public void Measure_LastPassWhereMoved_IsAsExactAndTheSameForAnyNumberOfThreads()
    {
        var settings = new DisplacementSettings { SpacingPixels = 8, Passes = 2, LastPass = Sampling.WhereMoved };
        GrayImage picture = Texture.Picture(Width, Height, TrueU, TrueV, strain: 0.01);

        var engine = new DisplacementEngine(Texture.Picture(Width, Height), PixelMask.All(Width, Height), settings);
        VectorField one = engine.Measure(picture, PlanarMotion.Identity, CancellationToken.None), four = engine.Measure(picture, PlanarMotion.Identity, 4, CancellationToken.None);
        VectorField everywhere = new DisplacementEngine(Texture.Picture(Width, Height), PixelMask.All(Width, Height), settings with { LastPass = Sampling.Everywhere })
            .Measure(picture, PlanarMotion.Identity, CancellationToken.None);

        SameField.Check(one, four);
        Assert.Equal(everywhere.Flags, one.Flags);
        double square = 0;
        for (int node = 0; node < one.U.Length; node++)
            square += Math.Pow(one.U[node] - everywhere.U[node], 2);
        Assert.InRange(Math.Sqrt(square / one.U.Length), 1e-7, 0.003);
    }

    // Passes at one offset of the predictor after the other: the first deforms everything, the others where it moved. Beside them one that deforms everything at the last offset.
    private static (float[] FirstU, NodeState Moved, NodeState Anew) Run(WindowLayout layout, PreparedFrame frame, params (float U, float V)[] offsets)
    {
        PredictorField predictor = Predictor(layout.Grid, offsets[0].U, offsets[0].V);
        NodeState moved = new(layout.Grid), anew = new(layout.Grid);
        BlockPass pass = Pass(layout);
        pass.Run(frame, predictor, moved, FrameThreads.One, CancellationToken.None);
        float[] firstU = [.. moved.U];
        moved.Sampling = Sampling.WhereMoved;
        foreach ((float u, float v) in offsets[1..])
        {
            Set(predictor, layout.Grid, u, v);
            pass.Run(frame, predictor, moved, FrameThreads.One, CancellationToken.None);
        }

        Pass(layout).Run(frame, predictor, anew, FrameThreads.One, CancellationToken.None);
        return (firstU, moved, anew);
    }

    private static BlockPass Pass(WindowLayout layout)
    {
        ReferenceWindows windows = ReferenceWindows.Build(Reference, layout, WindowWeighting.TopHat);
        return new BlockPass(Reference, windows, new BlockReference(Reference, windows, BlockLayout.Of(layout, WindowWeighting.TopHat)!));
    }

    // Missing pixels make blocks of which a part is left.
    private static PreparedFrame Frame(float gain, bool missing)
    {
        float[] pixels = Texture.Picture(Width, Height, TrueU, TrueV).Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
            pixels[i] *= gain;
        for (int y = 40; missing && y < 44; y++)
            pixels.AsSpan((y * Width) + 60, 9).Fill(float.NaN);
        var frame = new PreparedFrame(InterpolationOrder.Quintic);
        frame.Load(new GrayImage(Width, Height, pixels, 1000), FrameThreads.One, CancellationToken.None);
        return frame;
    }

    private static PredictorField Predictor(NodeGrid grid, float offU, float offV)
    {
        var predictor = new PredictorField(grid, Width, Height);
        predictor.SetMotion(PlanarMotion.Identity);
        Set(predictor, grid, offU, offV);
        return predictor;
    }

    private static void Set(PredictorField predictor, NodeGrid grid, float offU, float offV) =>
        predictor.Set([.. Enumerable.Repeat(TrueU + offU, grid.Count)], [.. Enumerable.Repeat(TrueV + offV, grid.Count)]);
}
