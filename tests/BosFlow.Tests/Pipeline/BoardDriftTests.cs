using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Pipeline;

public sealed class BoardDriftTests
{
    private const int Width = 320;
    private const int Height = 256;
    private const double BendPixels = 0.8;

    // A shaken camera, a board that bends in proportion to time.
    private static readonly SyntheticScene Scene = new(
        new SceneRecipe
        {
            Width = Width,
            Height = Height,
            FrameCount = 20,
            FlowOffCount = 0,
            Shake = new ShakeSettings { ShiftPixels = 3, RotationDegrees = 0.05, HighestFrequencyHz = 20 },
            Drift = new DriftSettings { BendPixels = BendPixels, ScalePercent = 0.1, ShiftPixels = 2 },
            Speckle = new SpeckleSettings { Seed = 41, DotsPerPixel = 0.05, MarginPixels = 30 },
            Sensor = new SensorSettings { NoisePercent = 1 },
            Flow = new FlowRecipe.Shift(0, 0),
            Seed = 42,
        },
        CancellationToken.None);

    [Fact]
    public void Run_BentBoardWithLaterStretch_MeasuresAsWithoutDrift()
    {
        (RunSummary removed, double floor) = Run(DriftHandling.Remove, [10], later: true);
        (RunSummary told, double left) = Run(DriftHandling.Report, [10], later: true);

        BoardDriftFinding finding = Assert.Single(removed.Reference.Drift);
        Assert.True(finding.IsRemoved);
        Assert.False(Assert.Single(told.Reference.Drift).IsRemoved);
        Assert.InRange(finding.RmsPixels, 5 * finding.NoisePixels, BendPixels);
        Assert.InRange(left / floor, 3, 100);
        Assert.InRange(floor, 0, 0.02);
        Assert.Contains(removed.Warnings, warning => warning.Contains("drifted against the camera", StringComparison.Ordinal) && warning.Contains("taken out", StringComparison.Ordinal));
        Assert.Contains(told.Warnings, warning => warning.Contains("it was left in", StringComparison.Ordinal));
    }

    [Fact]
    public void TakeOut_BetweenStretches_IsInProportionToTime()
    {
        var grid = new NodeGrid(7.5, 7.5, 8, 2, 1);
        var drift = new BoardDrift([new DriftStretch(30, 4, Field(grid, 3)), new DriftStretch(0, 4, null), new DriftStretch(10, 4, Field(grid, 1))], 4);

        float At(double time) => drift.TakeOut(Field(grid, 0), time).U[0];

        Assert.Equal([0f, 0f, -0.5f, -1f, -2f, -3f, -3f], new[] { -5.0, 0, 5, 10, 20, 30, 99 }.Select(At));
    }

    [Fact]
    public void TakeOut_PlaceThatAStretchDoesNotShow_HasNoValueWhereTheStretchCounts()
    {
        var grid = new NodeGrid(7.5, 7.5, 8, 2, 1);
        VectorField lost = Field(grid, float.NaN);
        Array.Fill(lost.Flags, VectorFlags.OutOfFrame);
        var drift = new BoardDrift([new DriftStretch(0, 4, null), new DriftStretch(10, 4, lost)], 4);

        VectorField before = drift.TakeOut(Field(grid, 1), 0);
        VectorField between = drift.TakeOut(Field(grid, 1), 1);

        Assert.Equal((1f, VectorFlags.None), (before.U[0], before.Flags[0]));
        Assert.Equal((float.NaN, VectorFlags.OutOfFrame), (between.U[0], between.Flags[0]));
    }

    [Fact]
    public void TakeOut_HalfWayBetweenEqualStretches_IsLessUncertainThanAgainstOne()
    {
        var grid = new NodeGrid(7.5, 7.5, 8, 2, 1);
        var drift = new BoardDrift([new DriftStretch(0, 2, null), new DriftStretch(10, 2, Field(grid, 1))], 2);

        float sigma = drift.TakeOut(Field(grid, 0), 5).SigmaU[0];

        // Of four frames in place of two: (1 + 1/4) / (1 + 1/2).
        Assert.Equal(0.1 * Math.Sqrt(1.25 / 1.5), sigma, 1e-7);
    }

    private static (RunSummary Summary, double Floor) Run(DriftHandling handling, int[] frames, bool later)
    {
        var footage = new SceneFootage(Scene);
        ReferenceSource Stretch(int start, int count, string name) => new(footage.Read([.. Enumerable.Range(start, count)], CancellationToken.None), name, [], false)
        {
            FrameCount = count,
            MeanTime = Enumerable.Range(start, count).Average(Scene.TimeSeconds),
        };
        var store = new MemoryStore();
        var request = new RunRequest
        {
            Case = new ExperimentCase
            {
                Footage = new FootageSettings(),
                Reference = new ReferenceSettings { Use = "0:4", Drift = handling },
                Region = new RegionSettings(),
            },
            Footage = footage,
            FrameIndices = frames,
            Reference = Stretch(0, 4, "flow-off frames 0:4") with { Later = later ? [Stretch(16, 4, "flow-off frames 16:20")] : [] },
            Store = store,
        };
        RunOutcome outcome = RunPipeline.Run(request, RunStages.Standard, null, CancellationToken.None);
        return (store.Summary!, Math.Max(outcome.NoiseFloorU, outcome.NoiseFloorV));
    }

    private static VectorField Field(NodeGrid grid, float u) => new()
    {
        Grid = grid,
        U = Filled(grid, u),
        V = Filled(grid, u),
        SigmaU = Filled(grid, 0.1f),
        SigmaV = Filled(grid, 0.1f),
        Flags = new VectorFlags[grid.Count],
        Correlation = Filled(grid, 1),
        PeakRatio = Filled(grid, 2),
    };

    private static float[] Filled(NodeGrid grid, float value)
    {
        float[] values = new float[grid.Count];
        Array.Fill(values, value);
        return values;
    }
}
