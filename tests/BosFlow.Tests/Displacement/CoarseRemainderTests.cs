using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Tests.Displacement;

public sealed class CoarseRemainderTests
{
    private static readonly DisplacementSettings Finest = new() { SpacingPixels = 8, PredictorSmoothings = 1 };

    [Theory]
    [InlineData(8, 1, 3)]
    [InlineData(8, 1, 2)]
    [InlineData(8, 2, 3)]
    [InlineData(16, 1, 2)]
    public void Remaining_OfErrorsOfCoarseWindows_IsWhatThePassesLeave(int spacing, int smoothings, int passes)
    {
        var settings = new DisplacementSettings { SpacingPixels = spacing, PredictorSmoothings = smoothings, Passes = passes };

        (double step, double left) = Passes(settings);

        // Some 500 independent coarse windows, the rest in waves that few of them have, and waves beyond the finest of the nodes, which the spectrum leaves out.
        Assert.Equal(1, Math.Sqrt(left / step / new NodeWaves(settings).Remaining()), 0.2);
    }

    [Fact]
    public void Measure_ThreePassesWithoutNoise_StateWhatIsLeftOfTheCoarsePass()
    {
        // Without noise or rounding nothing else is in the error of dots of 5 px, and twice the passes leave a quarter of it.
        ErrorStatistics three = Errors(Finest), six = Errors(Finest with { Passes = 6 });

        Assert.InRange(three.Rms, 2 * six.Rms, 0.002);
        Assert.InRange(three.CoverageOneSigma, 0.6, 0.85);
        Assert.InRange(three.CoverageTwoSigma, 0.92, 1);
    }

    private static ErrorStatistics Errors(DisplacementSettings settings)
    {
        const int Side = 320;
        var speckle = new SpeckleSettings { DotDiameterPixels = 5, DotsPerPixel = 0.025, ContrastFrom = 0.3, ContrastTo = 0.4, MarginPixels = 12, Seed = 5 };
        Dot[] dots = [.. SpecklePattern.Draw(Side, Side, speckle)];
        GrayImage Picture(PlanarMotion motion) => SceneRenderer.Render(dots, motion, Side, Side, speckle.DotSigmaPixels, new SensorSettings { Bits = 0 }, 7, 0, CancellationToken.None);
        var engine = new DisplacementEngine(Picture(PlanarMotion.Identity), PixelMask.All(Side, Side), settings);
        var errors = new ErrorStatistics();
        foreach ((double u, double v) in new[] { (0.3, 0.7), (1.6, -0.4) })
        {
            VectorField field = engine.Measure(Picture(PlanarMotion.Shift(u, v)), PlanarMotion.Identity, CancellationToken.None);
            for (int node = 0; node < field.U.Length; node++)
            {
                errors.Add(field.U[node], u, field.SigmaU[node]);
                errors.Add(field.V[node], v, field.SigmaV[node]);
            }
        }

        return errors;
    }

    // The passes themselves, in plain loops: white numbers at the pixels, measured by coarse windows, are all that the predictor has wrong.
    private static (double Step, double Left) Passes(DisplacementSettings settings)
    {
        const int Size = 1024;
        var random = new SeededRandom(4);
        double[] white = [.. Enumerable.Range(0, Size * Size).Select(_ => random.NextNormal())];
        WindowLayout coarse = WindowLayout.Fill(Size, Size, settings.CoarseWindowPixels, settings.CoarseWindowPixels / 2);
        WindowLayout layout = WindowLayout.Fill(Size, Size, settings.WindowPixels, settings.SpacingPixels);
        NodeGrid grid = layout.Grid;
        float[] steer = new float[grid.Count], scratch = new float[grid.Count], zero = new float[grid.Count];
        float[] wrong = [.. StatedSigmaTests.WindowMeans(coarse, (x, y) => white[(y * Size) + x]).Select(value => (float)value)];
        new NodeResampling(coarse.Grid, grid).Run(wrong, steer);
        var predictor = new PredictorField(grid, Size, Size);
        predictor.SetMotion(PlanarMotion.Identity);
        int border = 2 * settings.CoarseWindowPixels / settings.SpacingPixels;
        double step = 0;
        for (int pass = 1; pass <= settings.Passes; pass++)
        {
            predictor.Set(steer, zero);
            double[] seen = StatedSigmaTests.WindowMeansOfRows(layout, Size, predictor);
            step = pass == 1 ? StatedSigmaTests.Variance(grid, seen, border) : step;
            for (int node = 0; node < steer.Length; node++)
                steer[node] -= (float)seen[node];
            if (pass < settings.Passes)
                PredictorUpdate.Smooth(grid, steer, scratch, settings.PredictorSmoothings);
        }

        return (step, StatedSigmaTests.Variance(grid, [.. steer.Select(value => (double)value)], border));
    }
}
