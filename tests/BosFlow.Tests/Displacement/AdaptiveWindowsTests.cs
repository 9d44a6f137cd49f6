using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Tests.Displacement;

public sealed class AdaptiveWindowsTests
{
    private const int Width = 320;
    private const int Height = 256;
    private static readonly DisplacementSettings Fixed = new() { SpacingPixels = 8, PredictorSmoothings = 1 };
    private static readonly DisplacementSettings Adaptive = Fixed with { Windows = WindowSizing.Adaptive };
    private static readonly ShockFront Front = new(Width / 2.0, Height / 2.0, 1.9 * Math.Cos(0.6), -1.9 * Math.Sin(0.6), 8);
    private static readonly SpeckleSettings Speckle = new() { DotDiameterPixels = 3, DotsPerPixel = 0.05, MinimumGapPixels = 3, ContrastFrom = 0.3, ContrastTo = 0.5, MarginPixels = 16, Seed = 61 };
    private static readonly IReadOnlyList<Dot> Dots = SpecklePattern.Draw(Width, Height, Speckle);
    private static readonly GrayImage Reference = Picture(null, 0);
    private static readonly GrayImage Shocked = Picture(Front, 1);

    [Fact]
    public void Measure_ObliqueFront_IsTwiceAsExactAsWithFixedWindows()
    {
        VectorField field = Measure(Adaptive, Shocked), smeared = Measure(Fixed, Shocked);

        ErrorStatistics all = Errors(field, _ => true), fixedAll = Errors(smeared, _ => true);
        Assert.InRange(all.Rms, 0, 0.6 * fixedAll.Rms);
        Assert.Equal(0, field.Flags.Count(flag => flag != VectorFlags.None));

        // Half windows lie along the front alone; what is smeared there is in their sigma.
        for (int node = 0; node < field.Grid.Count; node++)
            Assert.Equal(Far(field, node) > 40 ? 32 : field.WindowSide![node], field.WindowSide![node]);
        ErrorStatistics half = Errors(field, node => field.WindowSide![node] == 16), same = Errors(smeared, node => field.WindowSide![node] == 16);
        Assert.True(half.Count > 200);
        Assert.InRange(half.CoverageTwoSigma, 0.85, 1);
        Assert.InRange(same.CoverageTwoSigma, 0, 0.5);
    }

    [Fact]
    public void Measure_SmoothDisplacement_IsThatOfFixedWindows()
    {
        GrayImage waved = Picture(new SinusoidField(0.5, 0.4, 300, 30, 10), 2);

        VectorField field = Measure(Adaptive, waved), expected = Measure(Fixed, waved);

        int half = field.WindowSide!.Count(side => side < 32);
        Assert.InRange(half, 0, field.Grid.Count / 500);
        Assert.Null(expected.WindowSide);
        if (half > 0)
            return;
        Assert.Equal(expected.U, field.U);
        Assert.Equal(expected.SigmaV, field.SigmaV);
    }

    [Fact]
    public void Measure_SeveralThreads_GiveTheSameBytes()
    {
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), Adaptive);

        VectorField one = engine.Measure(Shocked, PlanarMotion.Identity, CancellationToken.None), four = engine.Measure(Shocked, PlanarMotion.Identity, 4, CancellationToken.None);

        SameField.Check(one, four);
    }

    [Fact]
    public void Measure_MaskBesideAFront_LeavesMaskedPixelsOutOfEveryWindow()
    {
        // What the reference shows behind the mask's edge is another picture; nothing of it may reach a vector.
        var mask = new PixelMask(Width, Height, [.. Enumerable.Range(0, Width * Height).Select(i => i % Width < 180 ? (byte)1 : (byte)0)]);
        float[] spoilt = Reference.Pixels.ToArray();
        for (int i = 0; i < spoilt.Length; i++)
        {
            if (i % Width >= 195) // derivatives of the spline still see something of it within a dozen pixels
                spoilt[i] = 255 - spoilt[i];
        }

        VectorField expected = new DisplacementEngine(Reference, mask, Adaptive).Measure(Shocked, PlanarMotion.Identity, CancellationToken.None);
        VectorField field = new DisplacementEngine(new GrayImage(Width, Height, spoilt, 255), mask, Adaptive).Measure(Shocked, PlanarMotion.Identity, CancellationToken.None);

        Assert.Equal(expected.Flags, field.Flags);
        Assert.Equal(expected.WindowSide, field.WindowSide);
        for (int node = 0; node < field.Grid.Count; node++)
            Assert.Equal(expected.U[node], field.U[node], 1e-4);
        Assert.Contains(field.WindowSide!, side => side == 16);
    }

    [Theory]
    [InlineData(32, 8, 0.31, -0.17)]
    [InlineData(16, 4, -0.5, 0.5)]
    [InlineData(48, 12, 2.31, -1.67)]
    public void Solve_HalfWindows_AgreeWithThePlainWindowLoop(int window, int spacing, double u, double v)
    {
        const int W = 157, H = 118;
        var texture = new WaveTexture(3);
        float[] pixels = texture.Picture(W, H, u, v, strain: 0.02).Pixels.ToArray();
        for (int y = 40; y < 50; y++)
            pixels.AsSpan((y * W) + 60, 14).Fill(float.NaN);
        byte[] mask = [.. Enumerable.Range(0, W * H).Select(i => i % W > 120 && i / W < 37 ? (byte)0 : (byte)1)];
        var planes = new ReferenceTexture(texture.Picture(W, H), new PixelMask(W, H, mask));
        WindowLayout layout = WindowLayout.Fill(W, H, window, spacing);
        ReferenceWindows windows = ReferenceWindows.Build(planes, layout, WindowWeighting.TopHat);
        BlockLayout blocks = BlockLayout.Of(layout, WindowWeighting.TopHat, WindowSizing.Adaptive)!;
        var reference = new BlockReference(planes, windows, blocks);
        var half = new HalfWindows(planes, windows, reference);
        var frame = new PreparedFrame(InterpolationOrder.Quintic);
        frame.Load(new GrayImage(W, H, pixels, 255), FrameThreads.One, CancellationToken.None);
        var predictor = new PredictorField(layout.Grid, W, H);
        predictor.SetMotion(PlanarMotion.Identity);
        predictor.Set([.. Enumerable.Repeat((float)u + 0.1f, layout.Grid.Count)], [.. Enumerable.Repeat((float)v - 0.05f, layout.Grid.Count)]);
        var pass = new BlockPass(planes, windows, reference);
        var state = new NodeState(layout.Grid);
        pass.Run(frame, predictor, state, FrameThreads.One, CancellationToken.None);
        var match = new HalfMatch(half, blocks, pass.Sums);

        match.Solve(0, layout.Grid.Rows);

        Assert.True(ComparePlain(planes, half, frame, predictor, match) > layout.Grid.Count / 3);
        AssertSideBySide(new WindowSelection(windows, reference.Solver, half, match, pass.Scatter, 1e-6), state);
    }

    [Theory]
    [InlineData(32, 8, WindowWeighting.Gaussian, SubPixelMethod.LeastSquares)]
    [InlineData(32, 8, WindowWeighting.TopHat, SubPixelMethod.ThreePointGaussian)]
    [InlineData(24, 8, WindowWeighting.TopHat, SubPixelMethod.LeastSquares)]
    [InlineData(32, 10, WindowWeighting.TopHat, SubPixelMethod.LeastSquares)]
    public void Problems_WindowsThatAreNoSumsOfBlocks_AreRefusedInOneSentence(int window, int spacing, WindowWeighting weighting, SubPixelMethod method)
    {
        DisplacementSettings settings = Adaptive with { WindowPixels = window, SpacingPixels = spacing, Weighting = weighting, SubPixel = method };

        string problem = Assert.Single(DisplacementSettingsCheck.Problems(settings));
        Assert.Contains("windows = \"adaptive\" needs", problem, StringComparison.Ordinal);
        Assert.Empty(DisplacementSettingsCheck.Problems(settings with { Windows = WindowSizing.Fixed }));
    }

    // Lanes against the plain definition, node by node.
    private static void AssertSideBySide(WindowSelection selection, NodeState state)
    {
        int lanes = System.Numerics.Vector<float>.Count;
        for (int node = 0; node <= state.Grid.Count - lanes; node += lanes)
        {
            selection.CompareSideBySide(node, state);
            float[] together = [.. Enumerable.Range(node, lanes).Select(selection.At)];
            for (int lane = 0; lane < lanes; lane++)
            {
                selection.CompareOne(node + lane, state);
                float plain = selection.At(node + lane);
                Assert.Equal(float.IsNaN(plain), float.IsNaN(together[lane]));
                if (!float.IsNaN(plain))
                    Assert.Equal(plain, together[lane], 1e-3 * (1 + plain)); // single precision
            }
        }
    }

    private static GrayImage Picture(IFlowField? flow, int frame) => SceneRenderer.Render(
        SceneRenderer.Displace(Dots, flow, CancellationToken.None), PlanarMotion.Identity, Width, Height, Speckle.DotSigmaPixels, new SensorSettings { NoisePercent = 2 }, 62, frame, CancellationToken.None);

    private static VectorField Measure(DisplacementSettings settings, GrayImage frame) =>
        new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings).Measure(frame, PlanarMotion.Identity, CancellationToken.None);

    private static double Far(VectorField field, int node) => Math.Abs(Front.Distance(field.Grid.X(node % field.Grid.Columns), field.Grid.Y(node / field.Grid.Columns)));

    private static ErrorStatistics Errors(VectorField field, Func<int, bool> takes)
    {
        var errors = new ErrorStatistics();
        FieldErrors.Add(errors, field, FieldErrors.Truth(field, Front), takes);
        return errors;
    }

    private static int ComparePlain(ReferenceTexture planes, HalfWindows half, PreparedFrame frame, PredictorField predictor, HalfMatch match)
    {
        WindowLayout layout = half.Windows.Layout;
        var band = new DeformedBand(layout.Size, planes);
        int row = 0, compared = 0;
        for (int y = 0; y < planes.Height && row < layout.Grid.Rows; y++)
        {
            band.Advance(y, frame, predictor);
            if (y != layout.Top(row) + layout.Size - 1)
                continue;
            for (int column = 0; column < layout.Grid.Columns; column++)
            {
                int node = (row * layout.Grid.Columns) + column;
                MatchedWindow found = match.At(node);
                if (double.IsNaN(found.Du))
                    continue;
                Assert.Equal(VectorFlags.None, half.Windows.Flags[node]);
                Assert.Equal(VectorFlags.None, MaskedWindow.Match(planes, half.Windows, band, node, out MatchedWindow expected));
                double tolerance = 5e-4 * Math.Max(1, Math.Max(Math.Abs(expected.Du), Math.Abs(expected.Dv))); // sums of single precision over a quarter of the pixels, positions rounded to 1e-5 px, the reference to 16 bits
                Assert.Equal(expected.Du, found.Du, tolerance);
                Assert.Equal(expected.Dv, found.Dv, tolerance);
                Assert.Equal(expected.SigmaU, found.SigmaU, 2 * tolerance);
                Assert.Equal(expected.Correlation, found.Correlation, 2e-4);
                compared++;
            }

            row++;
        }

        return compared;
    }
}
