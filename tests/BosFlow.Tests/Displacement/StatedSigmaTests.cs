using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Tests.Displacement;

/// <summary>The stated sigma and its parts against errors that are known.</summary>
public sealed class StatedSigmaTests
{
    private const int Side = 320;

    [Theory]
    [InlineData(2.0, 0)]
    [InlineData(3.0, 0)]
    [InlineData(3.0, 5)]
    [InlineData(5.0, 5)]
    public void DotPixels_OfRenderedDots_IsTheirDiameterWithThePixelWhateverTheNoise(double diameter, double noisePercent)
    {
        Dot[] dots = Draw(diameter);

        double found = new DisplacementEngine(Picture(dots, diameter, noisePercent, PlanarMotion.Identity, 0), PixelMask.All(Side, Side), new DisplacementSettings()).DotPixels;

        Assert.Equal(Math.Sqrt((diameter * diameter) + (16.0 / 12)), found, 0.06 * diameter); // with the width of a pixel
    }

    [Theory]
    [InlineData(16, 2)]
    [InlineData(8, 1)]
    [InlineData(8, 2)]
    public void IterationNoise_OfWhiteErrors_IsTheirVarianceAfterThePasses(int spacing, int smoothings)
    {
        // The passes themselves on one axis and the other: white numbers at the pixels, measured by windows, in plain loops.
        var settings = new DisplacementSettings { SpacingPixels = spacing, PredictorSmoothings = smoothings };
        (double step, double result) = Passes(settings);

        // A thousand independent windows know a variance to some 5 %.
        Assert.Equal(1, result / step / IterationNoise.OfClearGradients(settings), 0.08);
        Assert.True(IterationNoise.OfClearGradients(settings) > 1);
        Assert.True(new IterationNoise(settings).Variance(0.3) > new IterationNoise(settings).Variance(0));
    }

    [Theory]
    [InlineData(Sampling.Everywhere, 0)]
    [InlineData(Sampling.Everywhere, 0.05)]
    [InlineData(Sampling.Everywhere, 0.2)]
    [InlineData(Sampling.Everywhere, 1000)] // more than half is never taken off
    [InlineData(Sampling.Everywhere, -0.03)] // groups that scatter more than blocks, as in a steep flow
    [InlineData(Sampling.WhereMoved, 0.2)] // nothing is said of edges
    public void EdgeShare_OfBlocksAndGroups_LeavesWhatEdgesDoNotMake(Sampling lastPass, double edge)
    {
        const double Shared = 1.1;
        // Displacements of blocks of the variance 1, and edges of the variance "edge".
        var settings = new DisplacementSettings { SpacingPixels = 8, LastPass = lastPass };
        BlockLayout blocks = BlockLayout.Of(WindowLayout.Fill(Side + 80, Side + 80, settings.WindowPixels, settings.SpacingPixels), WindowWeighting.TopHat)!;
        var edges = new EdgeShare(blocks, EdgeScatter.Of(blocks, settings), Shared);
        EdgeScatter passes = EdgeScatter.Of(blocks, settings with { LastPass = Sampling.Everywhere })!;
        double ofBlocks = passes.Blocks.Independent + (edge * passes.Blocks.OfEdges), ofGroups = passes.Groups.Independent + (edge * passes.Groups.OfEdges), result = passes.Result.Independent + (edge * passes.Result.OfEdges);
        double left = lastPass == Sampling.Everywhere ? Math.Clamp(result / passes.Result.Independent / (ofBlocks / passes.Blocks.Independent), 0.5, Shared) / passes.Blocks.Independent : Shared;
        float[] single = new float[4 * blocks.Columns], groups = new float[4 * blocks.Columns];
        for (int column = 0; column < blocks.Columns; column++)
        {
            // Found and expected of u and v; the last group lacks a column.
            foreach (int term in (int[])[0, 2])
            {
                (single[(term * blocks.Columns) + column], single[((term + 1) * blocks.Columns) + column]) = (0.06f * 1.3f * (float)ofBlocks, 0.06f);
                if (column < blocks.Columns - 1)
                    (groups[(term * blocks.Columns) + column], groups[((term + 1) * blocks.Columns) + column]) = (0.25f * 1.3f * (float)ofGroups, 0.25f);
            }
        }

        for (int row = 0; row < blocks.Rows / BlockScatter.RowStep; row++)
        {
            if (edges.Asks(row))
                edges.Tell(row, single, groups);
        }

        Assert.Equal(left, edges.Left(), 1e-5);
    }

    [Theory]
    [InlineData(32, 16, 3, 2)]
    [InlineData(32, 8, 3, 1)]
    [InlineData(48, 16, 2, 2)]
    public void GroupScatter_OfBlocks_IsWhatThePassesLeave(int window, int spacing, int passes, int smoothings)
    {
        BlockLayout layout = BlockLayout.Of(WindowLayout.Fill(640, 640, window, spacing), WindowWeighting.TopHat)!;

        var scatter = new GroupScatter(layout, passes, smoothings);

        // Some 5000 groups, of which two in three are independent, and as many results.
        (double independent, double result) = Found(layout, passes, smoothings, ofEdges: false);
        Assert.Equal(independent, scatter.Left(2).Independent, 0.02);
        Assert.Equal(1, result / scatter.Result().Independent, 0.08);
        (double edges, double resultOfEdges) = Found(layout, passes, smoothings, ofEdges: true);
        Assert.Equal(1, edges / scatter.Left(2).OfEdges, 0.03);
        Assert.Equal(1, resultOfEdges / scatter.Result().OfEdges, 0.08);
        Assert.InRange(scatter.Left(2).Independent, 0.9, 0.995);
        Assert.Equal(1, new GroupScatter(layout, 1, smoothings).Left(2).Independent, 1e-12);
        Assert.Equal(1, new GroupScatter(layout, 1, smoothings).Result().Independent, 1e-12);
    }

    [Fact]
    public void OfShifts_NeighbouringNodes_IsThePlainSigmaOfEach()
    {
        const int Size = 157;
        var settings = new DisplacementSettings { SpacingPixels = 8 };
        var planes = new ReferenceTexture(new WaveTexture(3).Picture(Size, Size), PixelMask.All(Size, Size));
        ReferenceWindows windows = ReferenceWindows.Build(planes, WindowLayout.Fill(Size, Size, settings.WindowPixels, settings.SpacingPixels), WindowWeighting.TopHat);
        var sigma = new StatedSigma(settings, windows, null, 0.45, 0.0006);
        const int First = 3;
        int count = windows.Layout.Grid.Count - First;
        // From clear gradients to ones that are mostly noise, beyond the last entry of the table.
        float[] steps = [.. Enumerable.Range(0, count).Select(i => i == 7 ? float.NaN : 0.0008f * i)], scatter = [.. Enumerable.Range(0, count).Select(i => 0.7f + (0.01f * (i % 90)))];
        float[] together = new float[count];

        sigma.OfShifts(First, steps, scatter, 1e-6, together);

        for (int i = 0; i < count; i++)
        {
            float plain = sigma.Of(First + i, steps[i], scatter[i], isHalf: false, order: 0, 1e-6);
            Assert.True(i == 7 ? float.IsNaN(together[i]) : Math.Abs(together[i] - plain) < 2e-6 * plain, $"{i}: {together[i]} is not {plain} px.");
        }
    }

    [Fact]
    public void Measure_NoiseThatNeighboursShare_IsKnownToSigma()
    {
        // Noise averaged over 3 x 3 px tells more of its part that a pattern of dots can be mistaken for than its residual alone says: by the residual alone sigma would be far too small.
        const double Dot = 4;
        Dot[] dots = Draw(Dot);
        GrayImage reference = Picture(dots, Dot, 0, PlanarMotion.Identity, 0);
        var engine = new DisplacementEngine(Shared(reference, 1), PixelMask.All(Side, Side), new DisplacementSettings());
        var errors = new ErrorStatistics();
        for (int frame = 2; frame < 6; frame++)
        {
            VectorField field = engine.Measure(Shared(Picture(dots, Dot, 0, PlanarMotion.Shift(0.2 * frame, 0), 0), frame), PlanarMotion.Identity, CancellationToken.None);
            for (int node = 0; node < field.U.Length; node++)
                errors.Add(field.U[node], 0.2 * frame, field.SigmaU[node]);
        }

        Assert.InRange(errors.CoverageOneSigma, 0.62, 0.74);
        Assert.InRange(errors.CoverageTwoSigma, 0.92, 0.98);
    }

    [Fact]
    public void SigmaStudy_ThreePixelDots_MeetEveryRequirement()
    {
        var settings = new DisplacementSettings();
        StudyResult standard = SigmaStudy.Run("standard", settings, [3], [2], _ => true, CancellationToken.None);
        StudyResult finest = SigmaStudy.Run("finest", settings with { SpacingPixels = 8, PredictorSmoothings = 1 }, [3], [2], _ => true, CancellationToken.None);

        Assert.All(standard.Figures.Concat(finest.Figures), figure => Assert.True(figure.Passes, FormattableString.Invariant($"{figure.Study}, {figure.Name}: {figure.Value}")));
    }

    private static Dot[] Draw(double diameter) =>
        [.. SpecklePattern.Draw(Side, Side, new SpeckleSettings { DotDiameterPixels = diameter, DotsPerPixel = 0.63 / (diameter * diameter), ContrastFrom = 0.3, ContrastTo = 0.4, MarginPixels = 12, Seed = 5 })];

    private static GrayImage Picture(Dot[] dots, double diameter, double noisePercent, PlanarMotion motion, int frame) =>
        SceneRenderer.Render(dots, motion, Side, Side, diameter / 4, new SensorSettings { NoisePercent = noisePercent, Bits = 0 }, 7, frame, CancellationToken.None);

    private static GrayImage Shared(GrayImage image, int seed)
    {
        var random = new SeededRandom((ulong)seed);
        double[] white = [.. Enumerable.Range(0, (Side + 2) * (Side + 2)).Select(_ => 4 * random.NextNormal())];
        float[] levels = image.Pixels.ToArray();
        for (int i = 0; i < levels.Length; i++)
        {
            for (int k = 0; k < 9; k++)
                levels[i] += (float)(white[(((i / Side) + (k / 3)) * (Side + 2)) + (i % Side) + (k % 3)] / 3);
        }

        return new GrayImage(Side, Side, levels, 255);
    }

    private static (double Step, double Result) Passes(DisplacementSettings settings)
    {
        const int Size = 768;
        var random = new SeededRandom(3);
        double[] white = [.. Enumerable.Range(0, Size * Size).Select(_ => random.NextNormal())];
        WindowLayout layout = WindowLayout.Fill(Size, Size, settings.WindowPixels, settings.SpacingPixels);
        NodeGrid grid = layout.Grid;
        double[] step = WindowMeans(layout, (x, y) => white[(y * Size) + x]);
        var predictor = new PredictorField(grid, Size, Size);
        predictor.SetMotion(PlanarMotion.Identity);
        float[] steer = new float[grid.Count], scratch = new float[grid.Count], zero = new float[grid.Count];
        double[] result = [.. step];
        for (int pass = 1; pass < settings.Passes; pass++)
        {
            for (int node = 0; node < steer.Length; node++)
                steer[node] = (float)result[node];
            PredictorUpdate.Smooth(grid, steer, scratch, settings.PredictorSmoothings);
            predictor.Set(steer, zero);
            double[] missing = WindowMeansOfRows(layout, Size, predictor);
            for (int node = 0; node < steer.Length; node++)
                result[node] = step[node] - missing[node] + steer[node];
        }

        int border = 2 * settings.WindowPixels / settings.SpacingPixels;
        return (Variance(grid, step, border), Variance(grid, result, border));
    }

    internal static double[] WindowMeansOfRows(WindowLayout layout, int size, PredictorField predictor)
    {
        float[] u = new float[size * size], v = new float[size];
        for (int y = 0; y < size; y++)
            predictor.Row(y, size, u.AsSpan(y * size, size), v);
        return WindowMeans(layout, (x, y) => u[(y * size) + x]);
    }

    internal static double[] WindowMeans(WindowLayout layout, Func<int, int, double> value)
    {
        double[] means = new double[layout.Grid.Count];
        for (int node = 0; node < means.Length; node++)
        {
            int left = layout.Left(node % layout.Grid.Columns), top = layout.Top(node / layout.Grid.Columns);
            for (int y = top; y < top + layout.Size; y++)
            {
                for (int x = left; x < left + layout.Size; x++)
                    means[node] += value(x, y) / (layout.Size * layout.Size);
            }
        }

        return means;
    }

    internal static double Variance(NodeGrid grid, double[] values, int border)
    {
        double sum = 0;
        int count = 0;
        for (int row = border; row < grid.Rows - border; row++)
        {
            for (int column = border; column < grid.Columns - border; column++)
            {
                sum += values[(row * grid.Columns) + column] * values[(row * grid.Columns) + column];
                count++;
            }
        }

        return sum / count;
    }

    // The passes in plain loops: every block tells a displacement of its own at random, and groups of 2 x 2 are compared with what their window finds.
    private static (double Groups, double Result) Found(BlockLayout layout, int passes, int smoothings, bool ofEdges)
    {
        double found = 0, expected = 0, results = 0, share = 2.0 / layout.PerWindow;
        int nodes = ((layout.Columns - layout.PerWindow) / layout.PerStep) + 1;
        var grid = new NodeGrid(((layout.PerWindow * layout.Side) - 1) / 2.0, ((layout.PerWindow * layout.Side) - 1) / 2.0, layout.PerStep * layout.Side, nodes, nodes);
        for (int seed = 0; seed < 4; seed++)
        {
            double[,] told = ofEdges ? RandomEdges(layout, seed) : RandomBlocks(layout, seed), rest = told;
            float[] total = new float[grid.Count], step = new float[grid.Count], scratch = new float[grid.Count];
            for (int pass = 1; pass <= passes; pass++)
            {
                if (pass > 1)
                    PredictorUpdate.Smooth(grid, total, scratch, smoothings);
                rest = Without(told, total, grid, layout);
                for (int node = 0; node < grid.Count; node++)
                {
                    step[node] = (float)Mean(rest, node / nodes * layout.PerStep, node % nodes * layout.PerStep, layout.PerWindow);
                    total[node] += step[node];
                }
            }

            // Far enough from the border.
            int border = 3 * layout.PerWindow, inside = border / layout.PerStep;
            for (int node = 0; node < grid.Count; node++)
                results += Math.Min(node % nodes, node / nodes) >= inside && Math.Max(node % nodes, node / nodes) < nodes - inside ? total[node] * total[node] / (4 * Math.Pow(nodes - (2 * inside), 2)) : 0;
            for (int row = border; row < layout.Rows - border; row++)
            {
                for (int column = border; column < layout.Columns - border; column++)
                {
                    double z = Mean(rest, row, column, 2) - step[(layout.NearestNode(row, nodes) * nodes) + layout.NearestNode(column, nodes)];
                    found += z * z;
                    expected += 0.25 * (1 - (share * share));
                }
            }
        }

        return (found / expected, results * layout.PerWindow * layout.PerWindow);
    }

    // Each edge of a block adds to one of its blocks what it takes from the other.
    private static double[,] RandomEdges(BlockLayout layout, int seed)
    {
        double[,] upright = RandomBlocks(layout, seed + 100), level = RandomBlocks(layout, seed + 200), told = new double[layout.Rows, layout.Columns];
        for (int row = 0; row < layout.Rows; row++)
        {
            for (int column = 0; column < layout.Columns; column++)
                told[row, column] = upright[row, column] - upright[row, (column + 1) % layout.Columns] + level[row, column] - level[(row + 1) % layout.Rows, column];
        }

        return told;
    }

    private static double[,] RandomBlocks(BlockLayout layout, int seed)
    {
        var random = new Random(seed);
        double[,] told = new double[layout.Rows, layout.Columns];
        for (int row = 0; row < layout.Rows; row++)
        {
            for (int column = 0; column < layout.Columns; column++)
                told[row, column] = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        }

        return told;
    }

    // Less the predictor between its nodes, mean over each block.
    private static double[,] Without(double[,] told, float[] total, NodeGrid grid, BlockLayout layout)
    {
        double[,] rest = (double[,])told.Clone();
        double[][] weights = [.. Enumerable.Range(0, layout.Columns).Select(block => Enumerable.Range(0, grid.Columns).Select(node => Enumerable.Range(block * layout.Side, layout.Side).Average(x => NodeWaves.CubicConvolution(((x - grid.OriginX) / grid.Spacing) - node))).ToArray())];
        for (int row = 0; row < layout.Rows; row++)
        {
            for (int column = 0; column < layout.Columns; column++)
            {
                int nearRow = Math.Clamp(row / layout.PerStep, 0, grid.Rows - 1), nearColumn = Math.Clamp(column / layout.PerStep, 0, grid.Columns - 1);
                for (int j = Math.Max(0, nearRow - 5); j <= Math.Min(grid.Rows - 1, nearRow + 5); j++)
                {
                    for (int i = Math.Max(0, nearColumn - 5); i <= Math.Min(grid.Columns - 1, nearColumn + 5); i++)
                        rest[row, column] -= weights[row][j] * weights[column][i] * total[(j * grid.Columns) + i];
                }
            }
        }

        return rest;
    }

    private static double Mean(double[,] blocks, int row, int column, int side)
    {
        double sum = 0;
        for (int i = row; i < row + side; i++)
        {
            for (int j = column; j < column + side; j++)
                sum += blocks[i, j];
        }

        return sum / (side * side);
    }
}
