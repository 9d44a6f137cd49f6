using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Speckle;

namespace BosFlow.Tests.Pipeline;

public sealed class BirgeRatioTests
{
    private const double VectorsPerError = 4; // windows of 32 px every 16 px
    private static readonly NodeGrid Grid = new(15.5, 15.5, 16, 39, 29);
    private static readonly PixelMask Picture = PixelMask.All(640, 480);

    [Theory]
    [InlineData(1.5)]
    [InlineData(3)]
    public void Factor_ErrorsLargerThanSigma_IsTheirRatio(double ratio) =>
        // 4000 squares of normal errors: a relative standard error of 1.1 %.
        Assert.Equal(ratio, BirgeRatio.Factor(Squares(4000, ratio), VectorsPerError), 0.05 * ratio);

    [Theory]
    [InlineData(1)]
    [InlineData(0.5)]
    public void Factor_ErrorsAsSigmaSaysOrSmaller_IsOne(double ratio) => Assert.Equal(1, BirgeRatio.Factor(Squares(4000, ratio), VectorsPerError));

    [Fact]
    public void Factor_WithinChance_IsOne()
    {
        // 400 squares of which 4 share an error: chance is twice 7 %.
        double[] squares = [.. Enumerable.Repeat(1.1 * 1.1, 400)], more = [.. Enumerable.Repeat(1.2 * 1.2, 400)];

        Assert.Equal(1, BirgeRatio.Factor(squares, VectorsPerError));
        Assert.Equal(1.2, BirgeRatio.Factor(more, VectorsPerError), 1e-9);
    }

    [Fact]
    public void Factor_FewVectorsFarOff_AreNotTakenForNoise()
    {
        double[] squares = Squares(4000, 2);
        for (int i = 0; i < 200; i++)
            squares[i * 20] = 1e6;

        // The robust limit lies by a tenth higher, which no normal error notices.
        Assert.Equal(2, BirgeRatio.Factor(squares, VectorsPerError), 0.1);
    }

    [Fact]
    public void Factor_TooFewVectors_IsOne() => Assert.Equal(1, BirgeRatio.Factor(Squares(31, 3), VectorsPerError));

    [Fact]
    public void Remove_UndisturbedRegionScattersMoreThanSigma_MultipliesAllSigmasOfThatComponent()
    {
        VectorField field = Field(errorU: 0.012, errorV: 0.005);
        BackgroundRemoval removal = Remover(flowIsDrawn: true).Remove(field, PlanarMotion.Shift(1, -2));

        Assert.InRange(removal.SigmaFactorU, 2.2, 2.6); // 0.012 px over 0.005 px
        Assert.Equal(1, removal.SigmaFactorV);
        Assert.All(removal.Field.SigmaU, sigma => Assert.Equal(removal.SigmaFactorU * 0.005, sigma, 0.0005)); // and what the motion adds
        Assert.All(removal.Field.SigmaV, sigma => Assert.InRange(sigma, 0.00499, 0.0055));
    }

    [Theory]
    [InlineData(MotionModel.Shift)]
    [InlineData(MotionModel.None)]
    public void Remove_NoFlowRegionDrawn_LeavesSigmas(MotionModel model)
    {
        // What scatters may be flow.
        BackgroundRemoval removal = Remover(flowIsDrawn: false, model).Remove(Field(errorU: 0.012, errorV: 0.012), PlanarMotion.Identity);

        Assert.Equal((1, 1), (removal.SigmaFactorU, removal.SigmaFactorV));
        Assert.All(removal.Field.SigmaU, sigma => Assert.InRange(sigma, 0.00499, 0.0055));
    }

    [Fact]
    public void Run_FlowDrawnAndErrorsLargerThanSigma_TellsTheFactor()
    {
        var store = new MemoryStore();
        RunStages stages = FakeStages.Of((picture, field) =>
        {
            for (int i = 0; i < field.Grid.Count && picture[0, 0] >= 3; i++)
                field.U[i] += 0.02f * ((i % 5) - 2);
            return field;
        });
        var small = new PixelPolygon([(0, 0), (10, 0), (10, 10), (0, 10)]);
        ExperimentCase drawn = RunScenes.Case with { Region = new RegionSettings { Flow = [small] } };

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(9, store, experiment: drawn), stages, null, CancellationToken.None);

        Assert.Equal(1, store.Frames[0].SigmaFactorU);
        Assert.InRange(store.Frames[5].SigmaFactorU, 4, 6); // 0.029 px over 0.006 px
        Assert.Equal(store.Frames[5].SigmaFactorU, store.Summary!.Frames[5].SigmaFactorU);
        Assert.Contains(outcome.Warnings, warning => warning.StartsWith("In 6 of 9 frames (3, 4, 5, 6, 7, ...) displacement scatters more outside the flow region", StringComparison.Ordinal));
    }

    private static BackgroundRemover Remover(bool flowIsDrawn, MotionModel model = MotionModel.Shift) =>
        new(Grid, 32, Picture, new RegistrationSettings { Motion = model }, flowIsDrawn);

    private static double[] Squares(int count, double ratio)
    {
        var random = new SeededRandom(3);
        return [.. Enumerable.Range(0, count).Select(_ => Math.Pow(ratio * random.NextNormal(), 2))];
    }

    private static VectorField Field(double errorU, double errorV)
    {
        var random = new SeededRandom(4);
        float[] Around(double mean, double error) => [.. Enumerable.Range(0, Grid.Count).Select(_ => (float)(mean + (error * random.NextNormal())))];
        float[] Filled(float value) => [.. Enumerable.Repeat(value, Grid.Count)];
        return new VectorField
        {
            Grid = Grid,
            U = Around(1, errorU),
            V = Around(-2, errorV),
            SigmaU = Filled(0.005f),
            SigmaV = Filled(0.005f),
            Flags = new VectorFlags[Grid.Count],
            Correlation = Filled(0.9f),
            PeakRatio = Filled(5),
        };
    }
}
