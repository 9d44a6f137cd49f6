using BosFlow.Footage;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

/// <summary>Stabilisation, and frames lost or written twice.</summary>
public sealed class SceneCameraTests
{
    private static readonly SceneRecipe Shaken = new()
    {
        Width = 96,
        Height = 80,
        FrameCount = 30,
        FlowOffCount = 30,
        FrameRateHz = 60,
        Flow = new FlowRecipe.Shift(0, 0),
        Vibration = new VibrationSettings { LowHertz = 1, HighHertz = 25, ShiftRmsPixels = 3 },
        Shutter = new ShutterSettings { ReadoutSeconds = 0.005 },
        Sensor = new SensorSettings { Bits = 0, Background = 0 },
        Speckle = new SpeckleSettings { MarginPixels = 60, DotDiameterPixels = 6 },
        Seed = 6,
    };

    [Fact]
    public void Render_Stabilised_ShowsADotWhereThePoseOfItsRowSays()
    {
        SceneRecipe lonely = Shaken with { Printed = [new Dot(45.3, 51.6, 0.5)], Stabilisation = new StabilisationSettings { SmoothingFrames = 6, BorderPixels = 16 } };
        var scene = new SyntheticScene(lonely, CancellationToken.None);
        foreach (int frame in (int[])[3, 11, 17])
        {
            (double x, double y) = Centroid(scene.Render(frame, CancellationToken.None));
            CameraPose pose = scene.PoseAt(frame, y);
            // Cubic convolution keeps the centre of mass of what it has sampled finely enough.
            Assert.Equal(45.3 + pose.ShiftX, x, 2e-3);
            Assert.Equal(51.6 + pose.ShiftY, y, 2e-3);
        }
    }

    [Fact]
    public void PoseAt_Stabilised_MovesLessFromFrameToFrameAndWithinTheBorder()
    {
        var bare = new SyntheticScene(Shaken, CancellationToken.None);
        var steady = new SyntheticScene(Shaken with { Stabilisation = new StabilisationSettings { SmoothingFrames = 6, BorderPixels = 16 } }, CancellationToken.None);
        Assert.True(Jumps(steady) < 0.3 * Jumps(bare));
        var tight = new SyntheticScene(Shaken with { Stabilisation = new StabilisationSettings { SmoothingFrames = 6, BorderPixels = 1 } }, CancellationToken.None);
        for (int frame = 0; frame < 30; frame++)
            Assert.InRange(tight.MotionAt(frame).DisplacementAt(47.5, 39.5).U - bare.MotionAt(frame).DisplacementAt(47.5, 39.5).U, -1.2, 1.2);
    }

    [Fact]
    public void Render_Stabilised_BlursByTheFractionOfTheShift()
    {
        // Half a pixel between samples costs contrast, a whole pixel none: the signature that a triage looks for.
        var scene = new SyntheticScene(Shaken with { Speckle = Shaken.Speckle with { DotDiameterPixels = 2 }, Shutter = null, Stabilisation = new StabilisationSettings { SmoothingFrames = 6, BorderPixels = 16 } }, CancellationToken.None);
        double[] contrasts = [.. Enumerable.Range(0, 30).Select(frame => Contrast(scene.Render(frame, CancellationToken.None)))];
        Assert.True(contrasts.Max() > 1.05 * contrasts.Min());
    }

    [Fact]
    public void Order_LostAndRepeated_ShiftsPicturesAndStamps()
    {
        var order = new FrameOrder { LostBefore = [5], Repeated = [8, 9] };
        SceneRecipe noisy = Shaken with { Sensor = new SensorSettings { NoisePercent = 2 } };
        var whole = new SyntheticScene(noisy, CancellationToken.None);
        var patchy = new SyntheticScene(noisy with { Order = order }, CancellationToken.None);
        Assert.Equal(whole.PoseAt(4, 10), patchy.PoseAt(4, 10));
        Assert.Equal(whole.PoseAt(6, 10), patchy.PoseAt(5, 10));
        Assert.Equal(whole.PoseAt(8, 10), patchy.PoseAt(9, 10));
        Assert.Equal(whole.PoseAt(11, 10), patchy.PoseAt(10, 10));
        Assert.True(patchy.Render(7, CancellationToken.None).Pixels.SequenceEqual(patchy.Render(9, CancellationToken.None).Pixels));
        Assert.False(patchy.Render(7, CancellationToken.None).Pixels.SequenceEqual(patchy.Render(10, CancellationToken.None).Pixels));
        Assert.Equal(6 / 60.0, patchy.TimeSeconds(5), 1e-12);
        Assert.Equal(10 / 60.0, patchy.TimeSeconds(9), 1e-12);
        Assert.Equal(5 / 60.0, new SyntheticScene(noisy with { Order = order with { StampsTell = false } }, CancellationToken.None).TimeSeconds(5), 1e-12);
    }

    [Fact]
    public void Render_EveryFault_IsTheSameOnOneThreadAndOnSeveral()
    {
        SceneRecipe all = Shaken with
        {
            Shutter = new ShutterSettings { ReadoutSeconds = 0.01, ExposureSeconds = 0.002 },
            Stabilisation = new StabilisationSettings(),
            Light = new LightSettings { VignettingPercent = 30, FlickerPercent = 10, UnsteadyPercent = 3, HuntingPercent = 10, SlantPercent = 10, Shadow = new ShadowSettings(40, 0, 30, 20, 9) },
            Sensor = new SensorSettings { NoisePercent = 1, Bits = 10, Gamma = 2.2 },
            Speckle = Shaken.Speckle with { MarginPixels = 80 },
        };
        float[] several = new SyntheticScene(all, CancellationToken.None).Render(7, CancellationToken.None).Pixels.ToArray();
        float[] one = [];
        var alone = new Thread(() =>
        {
            // A scheduler that runs everything on the thread that asks for it.
            one = Task.Factory.StartNew(() => new SyntheticScene(all, CancellationToken.None).Render(7, CancellationToken.None).Pixels.ToArray(), CancellationToken.None, TaskCreationOptions.None, new InlineScheduler()).Result;
        });
        alone.Start();
        alone.Join();
        Assert.True(several.AsSpan().SequenceEqual(one));
    }

    private static double Jumps(SyntheticScene scene)
    {
        double[] course = [.. Enumerable.Range(0, 30).Select(frame => scene.PoseAt(frame, 40).ShiftX)];
        return Math.Sqrt(course.Skip(1).Zip(course, (next, before) => (next - before) * (next - before)).Average());
    }

    private static double Contrast(GrayImage image)
    {
        double[] pixels = [.. image.Pixels.ToArray().Select(pixel => (double)pixel)];
        double mean = pixels.Average();
        return pixels.Average(pixel => (pixel - mean) * (pixel - mean)) / mean;
    }

    private static (double X, double Y) Centroid(GrayImage image)
    {
        double sum = 0, momentX = 0, momentY = 0;
        for (int y = 0; y < image.Height; y++)
        {
            for (int x = 0; x < image.Width; x++)
            {
                sum += image[x, y];
                momentX += image[x, y] * (double)x;
                momentY += image[x, y] * (double)y;
            }
        }

        return (momentX / sum, momentY / sum);
    }

    private sealed class InlineScheduler : TaskScheduler
    {
        protected override IEnumerable<Task> GetScheduledTasks() => [];

        protected override void QueueTask(Task task) => TryExecuteTask(task);

        protected override bool TryExecuteTaskInline(Task task, bool taskWasPreviouslyQueued) => TryExecuteTask(task);
    }
}
