using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Displacement;

public sealed class LeastSquaresKernelTests
{
    [Theory]
    [InlineData(WindowWeighting.TopHat)]
    [InlineData(WindowWeighting.Gaussian)]
    public void Run_FastSums_AgreeWithThePlainWindowLoop(WindowWeighting weighting)
    {
        var texture = new WaveTexture(3);
        GrayImage reference = texture.Picture(120, 90), moved = texture.Picture(120, 90, 0.31, -0.17);
        WindowLayout layout = WindowLayout.Fill(120, 90, 24, 10);
        var planes = new ReferenceTexture(reference, PixelMask.All(120, 90));
        ReferenceWindows windows = ReferenceWindows.Build(planes, layout, weighting);
        var frame = new PreparedFrame(InterpolationOrder.Quintic);
        frame.Load(moved, FrameThreads.One, CancellationToken.None);
        var predictor = new PredictorField(layout.Grid, 120, 90);
        predictor.SetMotion(PlanarMotion.Identity);
        predictor.Set(new float[layout.Grid.Count], new float[layout.Grid.Count]);
        var state = new NodeState(layout.Grid);

        new LeastSquaresPass(planes, windows).Run(frame, predictor, state, FrameThreads.One, CancellationToken.None);

        var band = new DeformedBand(24, planes);
        int row = 0;
        for (int y = 0; y < 90 && row < layout.Grid.Rows; y++)
        {
            band.Advance(y, frame, predictor);
            if (y != layout.Top(row) + 23)
                continue;
            for (int column = 0; column < layout.Grid.Columns; column++)
            {
                int node = (row * layout.Grid.Columns) + column;
                Assert.Equal(VectorFlags.None, MaskedWindow.Match(planes, windows, band, node, out MatchedWindow expected));
                Assert.Equal(expected.Du, state.U[node], 2e-5); // single against double precision sums of 576 products
                Assert.Equal(expected.Dv, state.V[node], 2e-5);
                Assert.Equal(expected.SigmaU, state.SigmaU[node], 2e-4);
                Assert.Equal(expected.Correlation, state.Correlation[node], 1e-4);
            }

            row++;
        }
    }

    [Fact]
    public void TrySolve_NegativePicture_IsNoMatch()
    {
        double[] identity = [1, 0, 1, 0, 0, 1, 0, 0, 0, 1];

        Assert.False(LeastSquaresMatch.TrySolve(identity, [0, 0, -1, 0, 4], 100, 1, out _));
    }
}
