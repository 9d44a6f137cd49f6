using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

/// <summary>Rows read one after the other, and exposures that last, against sums of pictures of single instants.</summary>
public sealed class ShutterTests
{
    // As hard as a clip of 720 rows with 6 px RMS up to 180 Hz: 0.1 px from row to row.
    private static readonly SceneRecipe Rolling = new()
    {
        Width = 96,
        Height = 80,
        FrameCount = 3,
        FlowOffCount = 2,
        FrameRateHz = 60,
        Flow = new FlowRecipe.Shift(1.25, -0.5),
        Vibration = new VibrationSettings { LowHertz = 5, HighHertz = 180, ShiftRmsPixels = 1, RotationRmsDegrees = 0.2, ScaleRmsPercent = 0.2 },
        Shutter = new ShutterSettings { ReadoutSeconds = 0.01 },
        Sensor = new SensorSettings { Bits = 0 },
        Seed = 12,
    };

    [Fact]
    public void Render_RowsReadInTurn_ShowsInEachRowThePictureOfItsTime()
    {
        var scene = new SyntheticScene(Rolling, CancellationToken.None);
        GrayImage image = scene.Render(2, CancellationToken.None);
        double largest = 0, faults = 0;
        for (int row = 0; row < Rolling.Height; row++)
        {
            GrayImage instant = scene.Render(2, scene.PoseAt(2, row).ToMotion(47.5, 39.5), CancellationToken.None);
            for (int x = 0; x < Rolling.Width; x++)
            {
                largest = Math.Max(largest, Math.Abs(image[x, row] - instant[x, row]));
                faults += Math.Pow(image[x, row] - instant[x, row], 2) / (Rolling.Width * Rolling.Height);
            }
        }

        // Within a dot the motion is a parabola of the row; what that leaves out is far below a level of 255, and half a level rounds away.
        Assert.True(largest < 0.1 && Math.Sqrt(faults) < 0.01, FormattableString.Invariant($"largest {largest:G3}, RMS {Math.Sqrt(faults):G3} of 255"));
    }

    [Fact]
    public void Render_Exposure_IsTheMeanOverIt()
    {
        SceneRecipe recipe = Rolling with { Shutter = new ShutterSettings { ReadoutSeconds = 0.01, ExposureSeconds = 0.004 } };
        var scene = new SyntheticScene(recipe, CancellationToken.None);
        GrayImage image = scene.Render(2, CancellationToken.None);
        const int Moments = 64;
        double largest = 0;
        foreach (int row in (int[])[3, 40, 71])
        {
            double[] mean = new double[recipe.Width];
            for (int i = 0; i < Moments; i++)
            {
                // The row that is read that much later has the same pose as this row at that moment of its exposure.
                double later = ((i + 0.5) / Moments - 0.5) * 0.004 / (0.01 / recipe.Height);
                GrayImage instant = scene.Render(2, scene.PoseAt(2, row + later).ToMotion(47.5, 39.5), CancellationToken.None);
                for (int x = 0; x < mean.Length; x++)
                    mean[x] += instant[x, row] / (double)Moments;
            }

            for (int x = 0; x < mean.Length; x++)
                largest = Math.Max(largest, Math.Abs(image[x, row] - mean[x]));
        }

        Assert.True(largest < 0.1, FormattableString.Invariant($"largest {largest:G3} of 255"));
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(3)]
    [InlineData(12)]
    [InlineData(60)]
    public void Moments_UniformSmear_AgreesWithItsClosedForm(double pathSigmas)
    {
        // The mean of a Gaussian over a path of L is sqrt(pi / 2) / L times a difference of error functions.
        IReadOnlyList<(double Seconds, double Weight)> moments = SmearRule.Moments(1, pathSigmas, 0.01);
        Assert.Equal(1, moments.Sum(moment => moment.Weight), 1e-9);
        for (double x = -3 - pathSigmas; x <= 3 + pathSigmas; x += 0.37)
        {
            double sum = moments.Sum(moment => moment.Weight * Math.Exp(-Math.Pow(x - (moment.Seconds * pathSigmas), 2) / 2));
            double exact = Math.Sqrt(Math.PI / 2) / pathSigmas
                * (MathNet.Numerics.SpecialFunctions.Erf((x + (pathSigmas / 2)) / Math.Sqrt(2)) - MathNet.Numerics.SpecialFunctions.Erf((x - (pathSigmas / 2)) / Math.Sqrt(2)));
            Assert.Equal(exact, sum, 1e-4);
        }
    }

    [Fact]
    public void Render_OneDot_IsSeenByTheRowOnWhichItLies()
    {
        // A single dot: its centre of mass is where the clock of its row puts it, but for the bend over its height, less than 0.001 px here.
        SceneRecipe lonely = Rolling with
        {
            Vibration = new VibrationSettings { Lines = [new VibrationLine(30, 2)] },
            Sensor = new SensorSettings { Bits = 0, Background = 0 },
            Printed = [new Dot(48.3, 61.7, 0.5)],
            Flow = new FlowRecipe.Shift(0, 0),
        };
        var scene = new SyntheticScene(lonely, CancellationToken.None);
        (double x, double y) = Centroid(scene.Render(1, CancellationToken.None));
        CameraPose pose = scene.PoseAt(1, y);
        Assert.Equal(48.3 + pose.ShiftX, x, 2e-3);
        Assert.Equal(61.7 + pose.ShiftY, y, 2e-3);
        Assert.Equal(1 / 60.0 + (0.01 * y / 80), scene.ExposedAtSeconds(1, y), 1e-15);
    }

    [Fact]
    public void TruthAt_FirstFrameOutOfPlace_IsThatOfTheDotsItShows()
    {
        var wave = new FlowRecipe.Wave(new SinusoidField(0.8, 0.3, 40, 30, 10));
        var scene = new SyntheticScene(Rolling with { Flow = wave, FrameCount = 4 }, CancellationToken.None);
        SceneTruth truth = scene.TruthAt(new NodeGrid(7.5, 7.5, 8, 10, 8), CancellationToken.None);
        CameraPose pose = scene.PoseAt(0, 31.5);
        (double x, double y) = pose.MoveBack(39.5 - 47.5, 31.5 - 39.5);
        FlowSample sample = new SinusoidField(0.8, 0.3, 40, 30, 10).At(x + 47.5, y + 39.5);
        (double u, double v) = pose.Turn(sample.U, sample.V);
        Assert.Equal(u, truth.U[(3 * 10) + 4], 1e-6);
        Assert.Equal(v, truth.V[(3 * 10) + 4], 1e-6);
        Assert.True(Math.Abs(x + 8) > 0.1, "the first frame of this seed lies too near to rest to tell anything");
    }

    [Fact]
    public void Render_StillFrames_AreAtRest()
    {
        var scene = new SyntheticScene(Rolling with { Vibration = Rolling.Vibration! with { StillFrames = 2 } }, CancellationToken.None);
        Assert.Equal(CameraPose.Rest, scene.PoseAt(1, 79));
        Assert.NotEqual(CameraPose.Rest, scene.PoseAt(2, 0));
    }

    [Fact]
    public void Constructor_MotionAlongWithTheReadout_IsRefused()
    {
        SceneRecipe fast = Rolling with { Vibration = new VibrationSettings { Lines = [new VibrationLine(2000, 3)] } };
        var problem = Assert.Throws<ConfigurationException>(() => new SyntheticScene(fast, CancellationToken.None));
        Assert.Contains("from one row's readout to the next", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Problems_ReadoutLongerThanTheFrame_IsRefused()
    {
        SceneRecipe slow = Rolling with { Shutter = new ShutterSettings { ReadoutSeconds = 0.02 } };
        Assert.Contains(slow.Problems(), problem => problem.Contains("16.667 ms", StringComparison.Ordinal));
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
}
