using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.Validation;
using Xunit.Abstractions;

namespace BosFlow.Tests.Validation;

/// <summary>Uneven and changing light over a shaken board: the error of the vectors against the same take in even light.</summary>
public sealed class LightTests(ITestOutputHelper output)
{
    // What is asked of the program: 1.3 times the error in even light.
    private const double LargestRatio = 1.3;
    private const int FlowOff = 3;
    private const int FlowOn = 5;

    private static readonly SceneRecipe Even = new()
    {
        Width = 384,
        Height = 288,
        FrameCount = FlowOff + FlowOn,
        FlowOffCount = FlowOff,
        FrameRateHz = 60,
        Flow = new FlowRecipe.Wave(new SinusoidField(0.4, 0.3, 160, 30)),
        Vibration = new VibrationSettings { LowHertz = 2, HighHertz = 40, ShiftRmsPixels = 2 },
        Speckle = new SpeckleSettings { Seed = 51, ContrastFrom = 0.3, ContrastTo = 0.5 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = 52,
    };

    private static readonly Lazy<Outcome> InEvenLight = new(() => Measure(Even));

    public static TheoryData<string, LightSettings> Kinds => new()
    {
        { "flicker of 20 % at 100 Hz", new LightSettings { FlickerPercent = 20 } },
        { "exposure that scatters by 10 %", new LightSettings { UnsteadyPercent = 10 } },
        { "exposure that hunts by up to 30 %", new LightSettings { HuntingPercent = 30, HuntingFrames = 3 } },
        { "vignetting of 40 % in the corners", new LightSettings { VignettingPercent = 40 } },
        { "sun that slants by 25 % and drifts by 90 degrees/s", new LightSettings { SlantPercent = 25, SlantDegreesPerSecond = 90 } },
        { "shadow of 30 % whose edge runs over the board", new LightSettings { Shadow = new ShadowSettings(30, -60, 0, 900, 60) } },
        { "glare that saturates a spot", new LightSettings { Glare = new GlareSettings(280, 100, 30, 3) } },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Run_UnevenLight_RaisesTheErrorByLessThanThreeTenths(string kind, LightSettings light)
    {
        Outcome even = InEvenLight.Value;

        Outcome uneven = Measure(Even with { Light = light });

        output.WriteLine(FormattableString.Invariant(
            $"{kind}: error {uneven.Error:0.0000} px, in even light {even.Error:0.0000} px, ratio {uneven.Error / even.Error:0.00}; {uneven.MeasuredShare:P1} of the vectors measured, in even light {even.MeasuredShare:P1}; {uneven.SaturatedShare:P1} saturated"));
        Assert.Equal(FlowOn, uneven.Frames);
        Assert.InRange(uneven.Error / even.Error, 0.5, LargestRatio);
        if (light.Glare is null)
            Assert.InRange(uneven.MeasuredShare, even.MeasuredShare - 0.02, 1);
    }

    [Fact]
    public void Run_SaturatedGlare_FlagsTheVectorsUnderIt()
    {
        var glare = new GlareSettings(280, 100, 30, 3);
        VectorField[] fields = [.. Fields(Even with { Light = new LightSettings { Glare = glare } }, out _).Select(frame => frame.Field)];

        Assert.All(fields, field =>
        {
            // The glare adds more than full scale within r sqrt(ln 3), 31 px: a window of 32 px in its middle is white all over.
            int[] middle = [.. Enumerable.Range(0, field.Flags.Length).Where(node => Distance(field.Grid, node, glare) < 12)];
            Assert.NotEmpty(middle);
            Assert.All(middle, node => Assert.True((field.Flags[node] & VectorFlags.Saturated) != 0, $"{field.Flags[node]}"));
            Assert.All(middle, node => Assert.True(float.IsNaN(field.U[node])));
            Assert.All(Enumerable.Range(0, field.Flags.Length).Where(node => Distance(field.Grid, node, glare) > 100), node => Assert.True((field.Flags[node] & VectorFlags.Saturated) == 0));
        });
    }

    [Fact]
    public void Run_LightThatVaries_IsToldWithItsSize()
    {
        var light = new LightSettings { VignettingPercent = 40, HuntingPercent = 30, HuntingFrames = 3, Glare = new GlareSettings(280, 100, 30, 3) };
        LightVariation even = VariationOf(Even);
        LightVariation varied = VariationOf(Even with { Light = light });

        Assert.InRange(even.HighestGain - even.LowestGain, 0, 0.01);
        Assert.InRange(even.CornerLevel, 0.95, 1.05);
        Assert.InRange(even.LowestPart, 0.95, 1);
        Assert.Equal(0, even.GlareFraction);
        Assert.InRange(varied.HighestGain - varied.LowestGain, 0.1, 0.6);
        Assert.InRange(varied.RelativeDeviation, 0.02, 0.3);
        // A corner part reaches from the very corner, which loses 40 %, inward.
        Assert.InRange(varied.CornerLevel, 0.6, 0.8);
        Assert.InRange(varied.GlareFraction, 0.01, 0.1);
    }

    [Fact]
    public void Run_ShadowThatRunsOverTheBoard_DarkensAPart()
    {
        LightVariation varied = VariationOf(Even with { Light = new LightSettings { Shadow = new ShadowSettings(30, -60, 0, 900, 60) } });

        Assert.InRange(varied.LowestPart, 0.65, 0.93);
        Assert.True(varied.LowestPartFrame >= FlowOff);
    }

    private static LightVariation VariationOf(SceneRecipe recipe)
    {
        var scene = new SyntheticScene(recipe, CancellationToken.None);
        RunSummary summary = SceneRun.Measure(scene, new SceneFootage(scene), MotionModel.Shift, new DisplacementSettings(), CancellationToken.None).Summary!;
        return LightVariation.Of(summary.Frames, summary.Reference.Image)!;
    }

    private static double Distance(NodeGrid grid, int node, GlareSettings glare) =>
        double.Hypot(grid.X(node % grid.Columns) - glare.X, grid.Y(node / grid.Columns) - glare.Y);

    private static FrameResult[] Fields(SceneRecipe recipe, out SyntheticScene scene)
    {
        scene = new SyntheticScene(recipe, CancellationToken.None);
        MemoryRunStore store = SceneRun.Measure(scene, new SceneFootage(scene), MotionModel.Shift, new DisplacementSettings(), CancellationToken.None);
        return [.. Enumerable.Range(FlowOff, FlowOn).Select(store.ReadFrame)];
    }

    private static Outcome Measure(SceneRecipe recipe)
    {
        FrameResult[] frames = [.. Fields(recipe, out SyntheticScene scene).Where(frame => frame.IsMeasured)];
        SceneTruth truth = scene.TruthAt(frames[0].Field.Grid, CancellationToken.None);
        double squares = 0;
        long count = 0, saturated = 0, all = 0;
        foreach (VectorField field in frames.Select(frame => frame.Field))
        {
            int[] nodes = [.. Enumerable.Range(0, field.Flags.Length).Where(node => field.Flags[node] == VectorFlags.None)];
            squares += Squares(field.U, truth.U, nodes) + Squares(field.V, truth.V, nodes);
            count += 2 * nodes.Length;
            saturated += field.Flags.Count(flag => (flag & VectorFlags.Saturated) != 0);
            all += field.Flags.Length;
        }

        return new Outcome(Math.Sqrt(squares / count), count / (2.0 * all), (double)saturated / all, frames.Length);
    }

    // The motion of the camera is told from the vectors themselves, which takes the mean of the flow for its own.
    private static double Squares(float[] measured, float[] truth, int[] nodes)
    {
        double mean = nodes.Average(node => measured[node] - truth[node]);
        return nodes.Sum(node => (measured[node] - truth[node] - mean) * (measured[node] - truth[node] - mean));
    }

    private sealed record Outcome(double Error, double MeasuredShare, double SaturatedShare, int Frames);
}
