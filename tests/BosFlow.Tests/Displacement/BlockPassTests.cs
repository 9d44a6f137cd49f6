using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Displacement;

public sealed class BlockPassTests
{
    private const int Width = 157;
    private const int Height = 118;
    private static readonly WaveTexture Texture = new(3);

    [Theory]
    [InlineData(32, 8, InterpolationOrder.Cubic, 0.31, -0.17)]
    [InlineData(32, 16, InterpolationOrder.Quintic, 2.31, -1.67)]
    [InlineData(24, 12, InterpolationOrder.Cubic, -0.5, 0.5)]
    [InlineData(16, 8, InterpolationOrder.Quintic, -7.4, 6.2)]
    [InlineData(32, 4, InterpolationOrder.Quintic, 0.1, 12.2)]
    public void Run_SumsOfBlocks_AgreeWithThePlainWindowLoop(int window, int spacing, InterpolationOrder order, double u, double v)
    {
        // A frame that leaves the picture on two sides, misses a patch, and a mask: every kind of tile and block occurs.
        float[] pixels = Texture.Picture(Width, Height, u, v, strain: 0.02).Pixels.ToArray();
        for (int y = 40; y < 50; y++)
            pixels.AsSpan((y * Width) + 60, 14).Fill(float.NaN);
        byte[] mask = [.. Enumerable.Range(0, Width * Height).Select(i => i % Width > 120 && i / Width < 37 ? (byte)0 : (byte)1)];
        var planes = new ReferenceTexture(Texture.Picture(Width, Height), new PixelMask(Width, Height, mask));
        WindowLayout layout = WindowLayout.Fill(Width, Height, window, spacing);
        ReferenceWindows windows = ReferenceWindows.Build(planes, layout, WindowWeighting.TopHat);
        BlockLayout blocks = BlockLayout.Of(layout, WindowWeighting.TopHat)!;
        var frame = new PreparedFrame(order);
        frame.Load(new GrayImage(Width, Height, pixels, 255), FrameThreads.One, CancellationToken.None);
        PredictorField predictor = Predictor(layout.Grid, u, v);
        var state = new NodeState(layout.Grid);

        new BlockPass(planes, windows, new BlockReference(planes, windows, blocks)).Run(frame, predictor, state, FrameThreads.One, CancellationToken.None);

        int compared = ComparePlain(planes, windows, frame, predictor, state);
        Assert.True(compared > layout.Grid.Count / 3);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void RateSideBySide_CompleteBlocks_IsThePlainRatingOfEach(int side)
    {
        GrayImage reference = Texture.Picture(Width, Height);
        var planes = new ReferenceTexture(reference, PixelMask.All(Width, Height));
        WindowLayout layout = WindowLayout.Fill(Width, Height, 32, 8);
        ReferenceWindows windows = ReferenceWindows.Build(planes, layout, WindowWeighting.TopHat);
        BlockLayout blocks = BlockLayout.Of(layout, WindowWeighting.TopHat)!;
        var random = new Random(5);
        float[] pixels = [.. Texture.Picture(Width, Height, 0.3, 0.2).Pixels.ToArray().Select(level => level + (4 * random.NextSingle()))];
        var frame = new PreparedFrame(InterpolationOrder.Cubic);
        frame.Load(new GrayImage(Width, Height, pixels, 255), FrameThreads.One, CancellationToken.None);
        var pass = new BlockPass(planes, windows, new BlockReference(planes, windows, blocks));
        var state = new NodeState(layout.Grid);
        var predictor = new PredictorField(layout.Grid, Width, Height);
        predictor.SetMotion(PlanarMotion.Shift(0.3, 0.2));
        predictor.Set(new float[layout.Grid.Count], new float[layout.Grid.Count]);
        pass.Run(frame, predictor, state, FrameThreads.One, CancellationToken.None);

        int compared = 0;
        for (int row = 0; row < blocks.Rows; row++)
        {
            int nodeRow = blocks.NearestNode(row, layout.Grid.Rows);
            float[] together = new float[4 * blocks.Columns], single = new float[4 * blocks.Columns];
            for (int column = 0; column < blocks.Columns; column++)
            {
                if (!pass.Scatter.RateSideBySide(row, column, side, nodeRow, state, together.AsSpan(column)))
                    continue;
                pass.Scatter.RateOne(row, column, side, nodeRow, state, single.AsSpan(column));
                for (int term = 0; term < 4; term++)
                {
                    float plain = single[(term * blocks.Columns) + column];
                    Assert.Equal(plain, together[(term * blocks.Columns) + column], 1e-4 + (2e-3 * plain)); // differences of sums in single precision; the mean is about 0.06
                }

                compared++;
            }
        }

        Assert.True(compared > blocks.Rows * blocks.Columns / 4);
    }

    [Theory]
    [InlineData(30, 8, WindowWeighting.TopHat)]
    [InlineData(32, 10, WindowWeighting.TopHat)]
    [InlineData(32, 8, WindowWeighting.Gaussian)]
    public void Of_WindowsWithoutCommonBlocks_AreLeftToThePassOverWindows(int window, int spacing, WindowWeighting weighting) =>
        Assert.Null(BlockLayout.Of(WindowLayout.Fill(Width, Height, window, spacing), weighting));

    // A little off the truth, so that the pass has something to find.
    private static PredictorField Predictor(NodeGrid grid, double u, double v)
    {
        float[] steerU = [.. Enumerable.Range(0, grid.Count).Select(node => (float)(u + 0.05 + (0.02 * grid.X(node % grid.Columns))))];
        float[] steerV = [.. Enumerable.Range(0, grid.Count).Select(node => (float)(v - 0.08 + (0.01 * (node % 2))))];
        var predictor = new PredictorField(grid, Width, Height);
        predictor.SetMotion(PlanarMotion.Identity);
        predictor.Set(steerU, steerV);
        return predictor;
    }

    private static int ComparePlain(ReferenceTexture planes, ReferenceWindows windows, PreparedFrame frame, PredictorField predictor, NodeState state)
    {
        WindowLayout layout = windows.Layout;
        var band = new DeformedBand(layout.Size, planes);
        int row = 0, compared = 0;
        for (int y = 0; y < Height && row < layout.Grid.Rows; y++)
        {
            band.Advance(y, frame, predictor);
            if (y != layout.Top(row) + layout.Size - 1)
                continue;
            for (int column = 0; column < layout.Grid.Columns; column++)
            {
                int node = (row * layout.Grid.Columns) + column;
                if (windows.Flags[node] != VectorFlags.None)
                {
                    Assert.Equal(windows.Flags[node], state.Flags[node]);
                    continue;
                }

                VectorFlags failure = MaskedWindow.Match(planes, windows, band, node, out MatchedWindow expected);
                (float u, float v) = predictor.AtNode(node);
                if (failure != VectorFlags.None)
                {
                    Assert.Equal(failure, state.Flags[node]);
                    continue;
                }

                Assert.Equal(u + Math.Clamp(expected.Du, -1, 1), state.U[node], 1e-4); // sums of single precision, positions rounded to 1e-5 px
                Assert.Equal(v + Math.Clamp(expected.Dv, -1, 1), state.V[node], 1e-4);
                Assert.Equal(expected.SigmaU, state.SigmaU[node], 2e-4);
                Assert.Equal(expected.SigmaV, state.SigmaV[node], 2e-4);
                Assert.Equal(expected.Correlation, state.Correlation[node], 1e-4);
                compared++;
            }

            row++;
        }

        return compared;
    }
}
