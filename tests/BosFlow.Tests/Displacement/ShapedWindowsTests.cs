using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Tests.Displacement;

/// <summary>Windows that fit a polynomial to the displacement within them.</summary>
public sealed class ShapedWindowsTests
{
    private const int Width = 320;
    private const int Height = 256;
    private static readonly DisplacementSettings Constant = new() { SpacingPixels = 8, PredictorSmoothings = 1 };
    private static readonly DisplacementSettings Quadratic = Constant with { WindowPixels = 48, Shape = WindowShape.Quadratic };
    private static readonly SinusoidField Wave = new(0.5, 0.3, 48, 0, 20);
    private static readonly SpeckleSettings Speckle = new() { DotDiameterPixels = 3, DotsPerPixel = 0.06, ContrastFrom = 0.3, ContrastTo = 0.5, MarginPixels = 16, Seed = 61 };
    private static readonly IReadOnlyList<Dot> Dots = SpecklePattern.Draw(Width, Height, Speckle);
    private static readonly GrayImage Reference = Picture(null, 0);
    private static readonly GrayImage Waved = Picture(Wave, 1);

    [Theory]
    [InlineData(48, 8, WindowShape.Quadratic)]
    [InlineData(32, 12, WindowShape.Quadratic)]
    [InlineData(32, 8, WindowShape.Affine)]
    public void Solve_DisplacementOfTheShape_IsFoundInTheMiddle(int window, int spacing, WindowShape shape)
    {
        const int W = 157, H = 118;
        var planes = new ReferenceTexture(new WaveTexture(3).Picture(W, H), PixelMask.All(W, H));
        WindowLayout layout = WindowLayout.Fill(W, H, window, spacing);
        ReferenceWindows windows = ReferenceWindows.Build(planes, layout, WindowWeighting.TopHat);
        var blocks = new BlockReference(planes, windows, BlockLayout.Of(layout, WindowWeighting.TopHat, WindowSizing.Fixed, shape)!);
        ShapeSolver solver = ShapeSolver.Of(windows, blocks, shape)!;
        NodeGrid grid = layout.Grid;

        // e = p_x gx + p_y gy with polynomials of the place, whose values at the centre of the picture's window are known; every block has their means.
        (double Own, double X, double Y, double XX, double XY, double YY) a = (0.02, 0.001, -0.002, 4e-5, -3e-5, 5e-5), b = (-0.03, -0.002, 0.001, -2e-5, 4e-5, 1e-5);
        if (shape == WindowShape.Affine)
            (a.XX, a.XY, a.YY, b.XX, b.XY, b.YY) = (0, 0, 0, 0, 0, 0);
        int side = blocks.Layout.Side;
        double within = ((side * side) - 1) / 12.0;
        double At((double Own, double X, double Y, double XX, double XY, double YY) p, double x, double y, double square) =>
            p.Own + (p.X * x) + (p.Y * y) + (p.XX * ((x * x) + square)) + (p.XY * x * y) + (p.YY * ((y * y) + square));
        var sums = new BlockSums(blocks.Layout);
        (double centreX, double centreY) = (W / 2.0, H / 2.0);
        for (int row = 0; row < blocks.Layout.Rows; row++)
        {
            Span<float> target = sums.Row(row);
            ReadOnlySpan<float> statics = blocks.Statics(row);
            int stride = blocks.Layout.Columns;
            for (int column = 0; column < stride; column++)
            {
                double x = blocks.Layout.FirstX + (column * side) + ((side - 1) / 2.0) - centreX, y = blocks.Layout.FirstY + (row * side) + ((side - 1) / 2.0) - centreY;
                double px = At(a, x, y, within), py = At(b, x, y, within);
                double Static(int term, ReadOnlySpan<float> of) => of[(term * stride) + column];
                target[column] = (float)((px * Static(0, statics)) + (py * Static(1, statics)));
                target[stride + column] = (float)((px * Static(1, statics)) + (py * Static(2, statics)));
                target[(2 * stride) + column] = (float)((px * Static(3, statics)) + (py * Static(4, statics)));
                target[(3 * stride) + column] = (float)((px * Static(6, statics)) + (py * Static(7, statics)));
            }
        }

        ShapeMoments moments = solver.NewMoments();
        float[] windowSums = new float[5 * grid.Columns], down = new float[blocks.Layout.Columns];
        for (int row = 0; row < grid.Rows; row++)
        {
            sums.AddWindows(row * blocks.Layout.PerStep, 0, blocks.Layout.PerWindow, down, windowSums);
            moments.Add(sums, row * blocks.Layout.PerStep);
            MatchedRow lanes = Unsolved(grid.Columns), plain = Unsolved(grid.Columns);
            solver.Solve(row, moments, windowSums, lanes);
            for (int column = 0; column < grid.Columns; column++)
            {
                int node = (row * grid.Columns) + column;
                Assert.Equal(solver.Functions.Order, solver.OrderAt(node));
                double x = grid.X(column) - centreX, y = grid.Y(row) - centreY;
                Assert.Equal(-At(a, x, y, 0), lanes.Du[column], 2e-5); // single precision
                Assert.Equal(-At(b, x, y, 0), lanes.Dv[column], 2e-5);
                solver.SolveOne(node, column, moments.Sums, windowSums, plain);
                Assert.Equal(plain.Du[column], lanes.Du[column], 1e-5);
                Assert.Equal(plain.Dv[column], lanes.Dv[column], 1e-5);
                Assert.Equal(plain.SigmaU[column], lanes.SigmaU[column], 1e-5);
                Assert.Equal(plain.SigmaV[column], lanes.SigmaV[column], 1e-5);
                Assert.InRange(lanes.SigmaU[column], 0.999, Math.Sqrt(ShapeSolver.LargestVarianceRatio));
            }
        }
    }

    [Fact]
    public void Measure_FineWave_KeepsWhatAShiftLoses()
    {
        VectorField field = Measure(Quadratic, Waved), smeared = Measure(Constant, Waved);

        // By the transforms of the passes.
        Assert.InRange(Slope(field), 0.82, 0.95);
        Assert.InRange(Slope(smeared), 0.5, 0.75);
        for (int node = 0; node < field.Grid.Count; node++)
            Assert.True(field.ShapeOrder![node] == 2 || IsAtBorder(field.Grid, node)); // beyond the border the frame has no pixels
        Assert.Null(smeared.ShapeOrder);
    }

    [Fact]
    public void Measure_OnePass_TakesTheShapeAtOnce() =>
        Assert.True(Slope(Measure(Quadratic with { Passes = 1 }, Waved)) > Slope(Measure(Quadratic with { Passes = 1, Shape = WindowShape.Constant }, Waved)) + 0.2);

    [Fact]
    public void Measure_SeveralThreads_GiveTheSameBytes()
    {
        var engine = new DisplacementEngine(Reference, PixelMask.All(Width, Height), Quadratic);

        VectorField one = engine.Measure(Waved, PlanarMotion.Identity, CancellationToken.None), two = engine.Measure(Waved, PlanarMotion.Identity, 2, CancellationToken.None);

        SameField.Check(one, two);
    }

    [Fact]
    public void Measure_MissingPixels_KeepTheShiftAndSigmaIsTrueThereAndAtAMask()
    {
        var mask = new PixelMask(Width, Height, [.. Enumerable.Range(0, Width * Height).Select(i => i % Width < 180 ? (byte)1 : (byte)0)]);
        float[] pixels = Picture(null, 3).Pixels.ToArray();
        for (int y = 60; y < 70; y++)
            pixels.AsSpan((y * Width) + 50, 12).Fill(float.NaN);
        var frame = new GrayImage(Width, Height, pixels, 255);

        VectorField field = new DisplacementEngine(Reference, mask, Quadratic).Measure(frame, PlanarMotion.Identity, CancellationToken.None);

        var errors = new ErrorStatistics();
        int near = 0;
        for (int node = 0; node < field.Grid.Count; node++)
        {
            double x = field.Grid.X(node % field.Grid.Columns), y = field.Grid.Y(node / field.Grid.Columns);
            bool missesPixels = Math.Abs(x - 55.5) < 29 && Math.Abs(y - 64.5) < 28, atMask = x > 172;
            if (float.IsNaN(field.U[node]) || field.Flags[node] != VectorFlags.None)
                continue;
            if (missesPixels || atMask)
            {
                if (missesPixels)
                    Assert.Equal(0, field.ShapeOrder![node]);
                near++;
                errors.Add(field.U[node], 0, field.SigmaU[node]);
                errors.Add(field.V[node], 0, field.SigmaV[node]);
            }
            else if (x < 140 && !IsAtBorder(field.Grid, node) && (Math.Abs(x - 55.5) > 48 || Math.Abs(y - 64.5) > 48))
            {
                Assert.Equal(2, field.ShapeOrder![node]);
            }
        }

        Assert.True(near > 60);
        Assert.InRange(errors.CoverageTwoSigma, 0.85, 1);
    }

    [Fact]
    public void Measure_NoDotsInTheMiddle_HaveALowerDegreeWhereAQuadraticWouldGuess()
    {
        Dot[] sides = [.. Dots.Where(dot => Math.Abs(dot.X - 160) > 18)];
        GrayImage Render(int frame) => SceneRenderer.Render(sides, PlanarMotion.Identity, Width, Height, Speckle.DotSigmaPixels, new SensorSettings { NoisePercent = 2 }, 62, frame, CancellationToken.None);

        VectorField field = new DisplacementEngine(Render(0), PixelMask.All(Width, Height), Quadratic).Measure(Render(1), PlanarMotion.Identity, CancellationToken.None);

        int lower = 0;
        for (int node = 0; node < field.Grid.Count; node++)
        {
            double away = Math.Abs(field.Grid.X(node % field.Grid.Columns) - 160);
            if (IsAtBorder(field.Grid, node) || field.Flags[node] != VectorFlags.None)
                continue;
            if (away < 4)
                lower += field.ShapeOrder![node] == 1 ? 1 : 0;
            else if (away > 42)
                Assert.Equal(2, field.ShapeOrder![node]);
        }

        Assert.True(lower > 15);
    }

    [Theory]
    [InlineData(WindowShape.Constant, 16, 2)]
    [InlineData(WindowShape.Constant, 8, 1)]
    [InlineData(WindowShape.Affine, 8, 1)]
    [InlineData(WindowShape.Quadratic, 8, 1)]
    [InlineData(WindowShape.Constant, 8, 1, WindowSizing.Adaptive)]
    public void Measure_BesideAMask_IsTheValueInTheMiddleAndNotThatOfTheRest(WindowShape shape, int spacing, int smoothings, WindowSizing windows = WindowSizing.Fixed)
    {
        // A shift is the mean over the pixels that are left, whose middle lies up to 8 px beside the vector's place: there the wave differs by up to 0.3 px.
        var wave = new SinusoidField(1, 0.7, 160, 20, 10);
        var mask = new PixelMask(Width, Height, [.. Enumerable.Range(0, Width * Height).Select(i => i % Width < 180 ? (byte)1 : (byte)0)]);
        var settings = new DisplacementSettings { SpacingPixels = spacing, PredictorSmoothings = smoothings, Shape = shape, Windows = windows };

        VectorField field = new DisplacementEngine(Reference, mask, settings).Measure(Picture(wave, 4), PlanarMotion.Identity, CancellationToken.None);

        var beside = new ErrorStatistics();
        FieldErrors.Add(beside, field, FieldErrors.Truth(field, wave), node => field.Grid.X(node % field.Grid.Columns) > 170 && !IsAtBorder(field.Grid, node));
        Assert.True(beside.Count > 20);
        Assert.InRange(beside.Rms, 0, 0.035);
    }

    [Fact]
    public void Of_AShift_HasAPolynomialWhereTheMaskCutsTheWindowAlone()
    {
        var mask = new PixelMask(120, 90, [.. Enumerable.Range(0, 120 * 90).Select(i => i % 120 < 66 ? (byte)1 : (byte)0)]);
        var planes = new ReferenceTexture(new WaveTexture(3).Picture(120, 90), mask);
        WindowLayout layout = WindowLayout.Fill(120, 90, 32, 8);
        ReferenceWindows windows = ReferenceWindows.Build(planes, layout, WindowWeighting.TopHat);

        ShapeSolver solver = ShapeSolver.Of(windows, new BlockReference(planes, windows, BlockLayout.Of(layout, WindowWeighting.TopHat)!), WindowShape.Constant)!;

        for (int node = 0; node < layout.Grid.Count; node++)
        {
            double share = windows.Weight[node] / 1024;
            Assert.Equal(windows.Flags[node] == VectorFlags.None && share < 0.9 ? 1 : 0, solver.OrderAt(node));
        }

        Assert.Contains(Enumerable.Range(0, layout.Grid.Count), node => solver.OrderAt(node) == 1);
    }

    [Fact]
    public void SigmaStudy_QuadraticWindows_MeetEveryRequirement()
    {
        StudyResult result = SigmaStudy.Run("quadratic", Quadratic, [3], [2], _ => true, CancellationToken.None);

        Assert.All(result.Figures, figure => Assert.True(figure.Passes, FormattableString.Invariant($"{figure.Name}: {figure.Value}")));
    }

    [Theory]
    [InlineData(48, 8, WindowWeighting.Gaussian, SubPixelMethod.LeastSquares)]
    [InlineData(48, 8, WindowWeighting.TopHat, SubPixelMethod.ThreePointGaussian)]
    [InlineData(12, 4, WindowWeighting.TopHat, SubPixelMethod.LeastSquares)]
    [InlineData(44, 8, WindowWeighting.TopHat, SubPixelMethod.LeastSquares)]
    [InlineData(48, 10, WindowWeighting.TopHat, SubPixelMethod.LeastSquares)]
    public void Problems_WindowsThatAreNoSumsOfBlocks_AreRefusedInOneSentence(int window, int spacing, WindowWeighting weighting, SubPixelMethod method)
    {
        DisplacementSettings settings = Quadratic with { WindowPixels = window, SpacingPixels = spacing, Weighting = weighting, SubPixel = method };

        string problem = Assert.Single(DisplacementSettingsCheck.Problems(settings));
        Assert.Contains("shape = \"quadratic\" needs", problem, StringComparison.Ordinal);
        Assert.Empty(DisplacementSettingsCheck.Problems(settings with { Shape = WindowShape.Constant }));
    }

    [Fact]
    public void Problems_AdaptiveWindowsWithAShape_AreRefused() =>
        Assert.Contains("shape = \"constant\" or \"affine\"", Assert.Single(DisplacementSettingsCheck.Problems(Quadratic with { Windows = WindowSizing.Adaptive })), StringComparison.Ordinal);

    private static bool IsAtBorder(NodeGrid grid, int node) =>
        node % grid.Columns is 0 || node % grid.Columns == grid.Columns - 1 || node / grid.Columns is 0 || node / grid.Columns == grid.Rows - 1;

    private static MatchedRow Unsolved(int columns)
    {
        var row = new MatchedRow(columns);
        row.Gain.AsSpan().Fill(1);
        row.SigmaU.AsSpan().Fill(1);
        row.SigmaV.AsSpan().Fill(1);
        return row;
    }

    private static double Slope(VectorField field)
    {
        Func<int, (double U, double V)> truth = FieldErrors.Truth(field, Wave);
        int[] nodes = [.. Enumerable.Range(0, field.Grid.Count).Where(node => field.Flags[node] == VectorFlags.None)];
        return LineFit.Of([.. nodes.Select(node => (float)truth(node).U)], [.. nodes.Select(node => field.U[node])]).Slope;
    }

    private static GrayImage Picture(IFlowField? flow, int frame) => SceneRenderer.Render(
        SceneRenderer.Displace(Dots, flow, CancellationToken.None), PlanarMotion.Identity, Width, Height, Speckle.DotSigmaPixels, new SensorSettings { NoisePercent = 2 }, 62, frame, CancellationToken.None);

    private static VectorField Measure(DisplacementSettings settings, GrayImage frame) =>
        new DisplacementEngine(Reference, PixelMask.All(Width, Height), settings).Measure(frame, PlanarMotion.Identity, CancellationToken.None);
}
